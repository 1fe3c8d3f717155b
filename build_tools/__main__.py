"""python3 -m build_tools COMMAND: sets up its own .venv, then runs the command there.

Only the standard library is used here, so that this works on a machine with nothing but Python.
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(f"Python 3.11 or newer is needed; this is {sys.version.split()[0]}. Install a newer one and call it by name, such as python3.12 -m build_tools.")

from .set_up import run_inside  # noqa: E402

if __name__ == "__main__":
    try:
        sys.exit(run_inside(sys.argv[1:]))
    except KeyboardInterrupt:
        print("Stopped. Run the command again: it goes on from what is there.", file=sys.stderr)
        sys.exit(130)
