"""The yardstick: a sheet drawn on the bare canvas of the PDF library, from positions that are ready.

Run cold as `python floor.py POSITIONS PDF`; `draw` again in one process is the warm yardstick. It uses the
canvas as a plain script would: one call for each line, box and text, the calls read from a file.
"""

import sys
from marshal import loads
from pathlib import Path

from reportlab import rl_config
from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas


def register(faces):
    """Give the library the faces of a sheet, once in a process."""
    rl_config.useA85 = 0  # binary streams, as the program: faster, so the yardstick flatters nobody
    for name, path in faces.items():
        registerFont(TTFont(name, path, asciiReadable=False))


def draw(sheet, target):
    """All pages: each is a list of (name of a canvas method, its arguments)."""
    canvas = Canvas(target, pagesize=sheet["size"], pageCompression=1, invariant=1)
    for calls in sheet["pages"]:
        for name, arguments in calls:
            if name == "shape":
                shape(canvas, *arguments)
            else:
                getattr(canvas, name)(*arguments)
        canvas.showPage()
    canvas.save()


def shape(canvas, points, close, outline, fill):
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    if close:
        path.close()
    canvas.drawPath(path, stroke=outline, fill=fill)


if __name__ == "__main__":
    ready = loads(Path(sys.argv[1]).read_bytes())
    register(ready["faces"])
    draw(ready, sys.argv[2])
