"""Rules about the printed tables and the doubts listed beside them."""

from __future__ import annotations

from ..problem import did_you_mean
from ..read import DataTree
from .tables import GRID_C, days_cell, doubts_of, tables_of
from ..registry import rule


@rule("unknown-table")
def unknown_table(tree: DataTree):
    """The CSV files of a source folder and the tables listed in its source.yml are the same set."""
    for source in tree.sources.values():
        listed = {entry.get("file") for entry in source.document.data.get("tables", []) if isinstance(entry, dict)}
        for index, entry in enumerate(source.document.data.get("tables", [])):
            if isinstance(entry, dict) and entry.get("file") not in {*source.tables, *source.unread}:
                yield source.document.problem(("tables", index, "file"), "unknown-table", f'The table "{entry.get("file")}" is not in this folder.', did_you_mean(str(entry.get("file")), source.tables))
        for name, table in source.tables.items():
            if name not in listed:
                yield table.problem(None, None, "unknown-table", f'"{name}" is not listed under tables in source.yml.', "List it with its kind and caption, or delete it.")


@rule("doubt-matches")
def doubt_matches(tree: DataTree):
    """A listed doubt names a row and column of the table and quotes the cell exactly as it is printed there."""
    for source in tree.sources.values():
        for index, entry in enumerate(source.document.data.get("tables", [])):
            table = source.tables.get(entry["file"])
            if table is None:
                continue
            for place, doubt in enumerate(entry.get("doubts", [])):
                path = ("tables", index, "doubts", place)
                rows = [row for row in table.rows if row[table.columns[0]] == doubt["row"]]
                if doubt["column"] not in table.columns:
                    yield source.document.problem(path + ("column",), "doubt-matches", f'{entry["file"]} has no column "{doubt["column"]}".', did_you_mean(doubt["column"], table.columns))
                elif not rows:
                    yield source.document.problem(path + ("row",), "doubt-matches", f'{entry["file"]} has no row "{doubt["row"]}".', did_you_mean(doubt["row"], {r[table.columns[0]] for r in table.rows}))
                elif not any(row[doubt["column"]] == doubt["printed"] for row in rows):
                    yield source.document.problem(path + ("printed",), "doubt-matches", f'The doubt quotes "{doubt["printed"]}" but the table says "{rows[0][doubt["column"]]}".', "Update or delete the doubt.", see=(table.see(rows[0], doubt["column"]),))


@rule("band-order")
def band_order(tree: DataTree):
    """In a printed table of temperature bands minimum, range, optimum and maximum rise, unless a doubt is listed for the odd cell."""
    for _, entry, table in tables_of(tree, "temperature-bands"):
        unit = "f" if "min_f" in table.columns or "max_f" in table.columns else "c"
        order = [f"{word}_{unit}" for word in ("min", "opt_low", "opt", "opt_high", "max")]
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            present = [(column, float(row[column])) for column in order if row[column]]
            for (a, low), (b, high) in zip(present, present[1:]):
                if low > high and a not in doubted and b not in doubted:
                    yield table.problem(row, b, "band-order", f"{b} is {high:g}, below {a} at {low:g}.", "Check the copy; if it is printed so, list a doubt in source.yml.")


@rule("days-fall")
def days_fall(tree: DataTree):
    """Days to emergence fall, or stay, as soil warms up to the crop's optimum, unless a doubt says they were measured otherwise."""
    for _, entry, table in tables_of(tree, "days-by-temperature"):
        for row in table.rows:
            doubted = doubts_of(entry, table, row)
            for crop in row["crop_id"].split(";"):
                if crop not in tree.crops:
                    continue
                temperature = tree.crops[crop].data.get("temperature", {})
                optimum = temperature.get("optimum_c", temperature.get("optimum_low_c", {})).get("value")
                if optimum is None:
                    continue
                last = None
                for column, celsius in GRID_C.items():
                    days = days_cell(row[column])
                    if days is None or column in doubted or celsius > optimum:
                        continue
                    if last is not None and days > last[1]:
                        yield table.problem(row, column, "days-fall", f"{crop}: {days:g} days at {celsius} °C, more than {last[1]:g} days at {last[0]} °C.", "If it is printed so, list a doubt with action measured-otherwise.", see=(tree.crops[crop].see(("temperature",), f"warming up to {optimum:g} °C"),))
                    last = (celsius, days)
