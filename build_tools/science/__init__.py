"""Computation: the reference implementations; browser twins live in docs/assets/js/science/."""
