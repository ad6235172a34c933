"""SHEET, the yardstick for work that has no pages of its own: two pages of a size that never changes.

Page 1   a drawing of 150 primitives (120 lines, 10 arcs, 20 dimensions of one text each) and a title strip.
Page 2   a table of 12 rows and 8 columns with its rules, an inspection table of 8 rows and 6 columns, 12
         lines of notes: about 190 primitives.
"""

from jobsheets.sheet.display import Arc, Item, Line, Page, Text

SIZE = 10.6  # points, of notes
NOTE = "Measure the shoulder before the part is taken out of the collet: it cannot be held again."


def pages() -> tuple[Page, Page]:
    return Page(items=tuple(_drawing())), Page(items=tuple(_tables()))


def _drawing() -> list[Item]:
    items: list[Item] = [Text(x=20.0, y=15.0, text="Yardstick sheet", size=13.0, bold=True)]
    for k in range(120):
        y = 40.0 + 1.5 * k
        style = ("visible", "thin", "centre", "hidden")[k % 4]
        items.append(Line(x1=30.0 + k % 7, y1=y, x2=120.0 - k % 11, y2=y + k % 3, style=style))
    items += [Arc(cx=140.0, cy=50.0 + 18.0 * k, r=3.0 + k, start=0.0, sweep=90.0) for k in range(10)]
    items += [Text(x=160.0, y=45.0 + 9.0 * k, text=f"⌀ {6.35 + k:.2f} ±0.05", size=SIZE) for k in range(20)]
    return items


def _tables() -> list[Item]:
    items = [*_table(20.0, 12, 8), *_table(140.0, 8, 6)]
    return items + [Text(x=20.0, y=205.0 + 5.0 * k, text=NOTE, size=SIZE) for k in range(12)]


def _table(top: float, rows: int, columns: int) -> list[Item]:
    wide, high = 180.0 / columns, 8.0
    bottom = top + high * rows
    items: list[Item] = []
    for row in range(rows + 1):
        items.append(Line(x1=20.0, y1=top + high * row, x2=200.0, y2=top + high * row))
    for column in range(columns + 1):
        items.append(Line(x1=20.0 + wide * column, y1=top, x2=20.0 + wide * column, y2=bottom))
    for row in range(rows):
        for column in range(columns):
            x, y = 21.0 + wide * column, top + high * row + 5.5
            items.append(Text(x=x, y=y, text=f"{1.25 * (row + 1) * (column + 1):.3f}", size=SIZE))
    return items
