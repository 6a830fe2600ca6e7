"""Write the generated pages of docs/ anew."""

from pathlib import Path

from axlewright.workshop.formulary import formula_page, symbol_page
from axlewright.workshop.reference import build_reference, catalogue_page

DOCS = Path(__file__).resolve().parents[1] / "docs"
PAGES = {
    "build-file.md": build_reference,
    "catalogue.md": catalogue_page,
    "formulas.md": formula_page,
    "symbols.md": symbol_page,
}

if __name__ == "__main__":
    for name, page in PAGES.items():
        (DOCS / name).write_text(page(), encoding="utf-8")
        print(f"docs/{name}")
