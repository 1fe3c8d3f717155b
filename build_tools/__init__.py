"""Build tools of the germination reference: read, check, model, render, site."""
