"""Reads a folder of drawings with general-purpose libraries and prints what it finds, a line each.

dxf FILE ERRORS            faults that the audit of ezdxf finds or had to repair
layer FILE NAME            a layer
hole FILE X Y DIAMETER     a circle on the layer of holes
said FILE WORD WORD ...    the words of the texts of a DXF on the layer of texts
words FILE WORD WORD ...   the words of a PDF in the order of its pages
outline FILE PAGE TITLE    a bookmark of a PDF with the number of the page that it leads to
"""

import pathlib
import sys

import ezdxf
import pypdf

for path in sorted(pathlib.Path(sys.argv[1]).iterdir()):
    if path.suffix == ".dxf":
        document = ezdxf.readfile(path)
        audit = document.audit()
        print("dxf", path.name, len(audit.errors) + len(audit.fixes))
        for layer in document.layers:
            print("layer", path.name, layer.dxf.name)
        for circle in document.modelspace().query('CIRCLE[layer=="holes"]'):
            x, y, _ = circle.dxf.center
            print("hole", path.name, repr(x), repr(y), repr(2 * circle.dxf.radius))
        texts = document.modelspace().query('TEXT[layer=="text"]')
        print("said", path.name, *" ".join(text.plain_text() for text in texts).split())
    elif path.suffix == ".pdf":
        reader = pypdf.PdfReader(path)
        words = []
        for page in reader.pages:
            words += page.extract_text().split()
        print("words", path.name, *words)
        for entry in reader.outline:
            page = reader.get_destination_page_number(entry) + 1
            print("outline", path.name, page, entry.title)
