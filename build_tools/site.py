"""Building the whole site beside the last good one, then putting it in its place; and serving it while editing."""

from __future__ import annotations

import errno
import glob
import hashlib
import logging
import os
import shutil
import sys
import tempfile
import time
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timezone
from pathlib import Path

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, ConfigurationError

from . import ahead, kept
from .checksums import write_list
from .environment import explained
from .from_folder import write_scripts
from .offline import write_worker
from .preview import Preview, Stamps, file_of, only_edited
from .read import read_yaml
from .theme_scripts import ThemeChanged, adapt_script
from .theme_styles import leave_out_unused

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None

KEPT = ".cache"
LOOK_EVERY = 0.25  # seconds between two looks at the watched folders, while serving


def build(root: Path, output: Path, keep: bool = True) -> int:
    """Check, render and build into `output`. Returns the exit status; on failure `output` is left as it was.

    `keep`: sheets that an earlier build has set of the very same marks are taken from <root>/.cache; without it everything is made anew.
    """
    os.environ.setdefault("SOURCE_DATE_EPOCH", str(data_date(root)))  # same input, same bytes: dates are those of the data
    logging.basicConfig(level=logging.WARNING, format="%(message)s")
    start, began = time.monotonic(), time.time()
    output = output.resolve()
    fresh = output.with_name(f"{output.name}.new-{os.getpid()}")
    try:
        output.parent.mkdir(parents=True, exist_ok=True)
        tidy(output)
        kept.keep_in(root / KEPT if keep else None)
        config = load_config(str(root / "mkdocs.yml"), site_dir=str(fresh))
        mkdocs_build(config)
        adapt_script(fresh)
        leave_out_unused(fresh)
        write_scripts(fresh)
        write_worker(fresh)
        write_list(fresh)
        replace_folder(fresh, output)
        kept.tidy(began)
    except (Abort, ThemeChanged) as error:
        print(f"{error}", file=sys.stderr)
        return 1
    except (ConfigurationError, OSError) as error:
        place = f" ({error.filename})" if getattr(error, "filename", None) else ""
        print(f"The site was not built: {getattr(error, 'strerror', None) or error}{place}. The last good one is untouched.", file=sys.stderr)
        if isinstance(error, ConfigurationError | LookupError | FileNotFoundError) and (told := explained(root, error)):  # a theme, a template or a file is gone
            print(told, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped. The last good site is untouched.", file=sys.stderr)
        return 130
    finally:
        ahead.stop()
        kept.keep_in(None)
        shutil.rmtree(fresh, ignore_errors=True)
    pages = sum(1 for _ in output.rglob("*.html"))
    print(f"Built {pages} pages in {time.monotonic() - start:.1f} s: {output}")
    return 0


def tidy(output: Path) -> None:
    """Put right what a build that was killed has left: the last good site, if it was just being exchanged, and half-built folders."""
    with exchanging(output):
        for left in sorted(output.parent.glob(f"{glob.escape(output.name)}.old-*")):
            if not output.exists():
                left.rename(output)
        for left in [*output.parent.glob(f"{glob.escape(output.name)}.old-*"), *output.parent.glob(f"{glob.escape(output.name)}.new-*")]:
            if not _runs(left.name.rpartition("-")[2]):
                shutil.rmtree(left, ignore_errors=True)


def _runs(process: str) -> bool:
    """Whether a process of that number runs here; True where it can't be told."""
    if os.name == "nt":  # asking there would stop it
        return True
    try:
        os.kill(int(process), 0)
    except (ProcessLookupError, ValueError):
        return False
    except (OSError, OverflowError):
        return True
    return True


@contextmanager
def exchanging(output: Path) -> Iterator[None]:
    """One build at a time puts its site in place; others wait for it. Where the system has no such lock, none is held."""
    if fcntl is None:
        yield
        return
    lock = hashlib.sha256(str(output).encode("utf-8", "surrogateescape")).hexdigest()[:16]
    with Path(tempfile.gettempdir(), f"germination-site-{os.getuid()}-{lock}.lock").open("w") as file:
        fcntl.flock(file, fcntl.LOCK_EX)
        yield


def data_date(root: Path) -> int:
    """The first second (UTC) of the month of the data version in data/library.yml; 0 when that can't be read."""
    document, _ = read_yaml(root / "data" / "library.yml", "data/library.yml")
    version = str(document.data.get("data_version", "")) if document and isinstance(document.data, dict) else ""
    try:
        year, month = (int(part) for part in version.split(".")[:2])
        return int(datetime(year, month, 1, tzinfo=timezone.utc).timestamp())
    except ValueError:
        return 0


def replace_folder(fresh: Path, output: Path) -> None:
    """Move `fresh` into the place of `output` by two renames; on failure the old one is put back."""
    old = output.with_name(f"{output.name}.old-{os.getpid()}")
    with exchanging(output):
        if output.exists():
            output.rename(old)
        try:
            fresh.rename(output)
        except OSError:
            if old.exists():
                old.rename(output)
            raise
    shutil.rmtree(old, ignore_errors=True)


def serve(root: Path, port: int) -> int:
    """Check, build and serve on this machine. A change of data or guides shows when they are read and checked; any other builds the whole site."""
    logging.basicConfig(level=logging.INFO, format="%(message)s")
    kept.keep_in(root / KEPT)
    site = Path(tempfile.mkdtemp(prefix="germination-served-"))
    try:
        return _served(root, site, port)
    except (Abort, ConfigurationError) as error:
        print(f"{error}", file=sys.stderr)
        return 1
    except OSError as error:
        if error.errno in (errno.EADDRINUSE, errno.EADDRNOTAVAIL) or port < 1024 and error.errno == errno.EACCES:
            print(f"Cannot serve on port {port}: {error.strerror}. Try another: python3 -m build_tools serve --port {port + 1 if port >= 1024 else 8000}", file=sys.stderr)
            return 1
        raise
    except KeyboardInterrupt:
        return 130
    finally:
        kept.keep_in(None)
        shutil.rmtree(site, ignore_errors=True)


def _served(root: Path, site: Path, port: int) -> int:
    from mkdocs.livereload import LiveReloadServer

    address, preview = f"http://127.0.0.1:{port}/", Preview(site)

    class Server(LiveReloadServer):
        """Sees to it that what is asked for is as the newest data would have it."""

        def serve_request(self, environ, start_response):
            name, said = file_of(environ["PATH_INFO"].encode("latin-1").decode("utf-8", "ignore"), self.mount_path), []
            try:
                preview.fresh(name)
                answer = super().serve_request(environ, lambda *words: said.append(words))
                while preview.is_stale(name):  # a change was taken in just now
                    preview.fresh(name)
                    answer = super().serve_request(environ, lambda *words: said.append(words))
            except Exception:
                traceback.print_exc()
                start_response("500 Internal Server Error", [("Content-Type", "text/plain; charset=utf-8")])
                return [f"{name} could not be made. What went wrong stands where the server was started.\n".encode()]
            start_response(*said[-1])
            return answer

    def configured():
        config = load_config(str(root / "mkdocs.yml"), site_dir=str(site))
        config.site_url = address
        return config

    def rebuild() -> None:
        changed = stamps.changed()
        with preview.lock:
            if changed and not (only_edited(changed) and hook.take_in(root)):
                mkdocs_build(configured(), serve_url=address)

    config = configured()
    hook = next(iter(config.hooks.values()))
    stamps = Stamps(root, ["docs", "mkdocs.yml", *(Path(place).relative_to(root).as_posix() for place in config.watch)])
    config.plugins.on_startup(command="serve", dirty=False)
    hook.serve_with(preview)
    server = Server(builder=rebuild, host="127.0.0.1", port=port, root=str(site), polling_interval=LOOK_EVERY)
    server.error_handler = lambda code: (site / f"{code}.html").read_bytes() if (site / f"{code}.html").is_file() else None
    try:
        mkdocs_build(config, serve_url=address)
        for place in (config.docs_dir, config.config_file_path, *config.watch):
            server.watch(place)
        server.serve()
    except KeyboardInterrupt:
        pass
    finally:
        server.shutdown()
    return 0
