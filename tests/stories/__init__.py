"""Whole stories of a contribution, played in scratch repositories."""
