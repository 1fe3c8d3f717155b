"""The colours of printed sheets, by name: those of the site in print (docs/assets/css/site.css), held together by a test."""

from __future__ import annotations

PALETTE = {
    "ink": "#000000", "soft": "#333333", "paper": "#ffffff", "rule": "#999999",
    "cold": "#e9eef2", "slow": "#e3d3a0", "best": "#3d7048", "fading": "#c99a4b", "hot": "#8f4030", "line": "#777777",
    "days-1": "#1f5a34", "days-2": "#47805a", "days-3": "#86b487", "days-4": "#c3d8a6", "days-5": "#f4efdc",
    "on-days-1": "#ffffff", "on-days-2": "#ffffff", "on-days-3": "#000000", "on-days-4": "#000000", "on-days-5": "#000000",
    "on-best": "#ffffff", "on-light": "#000000", "on-hot": "#ffffff",
}
