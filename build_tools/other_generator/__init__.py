"""The way to another site generator: the same rendered pages and files in a plain folder, and a build of them elsewhere that proves it."""
