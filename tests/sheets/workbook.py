"""Reads a workbook with openpyxl and compares each worksheet with its CSV file, cell by cell.

Usage: workbook.py FOLDER TAG REVISION WARNING [WORKSHEET=FILE.csv]...; says `cells N numbers M` or what differs. The
two last columns of each CSV file are tag and revision, which a worksheet has in the heads of its pages instead."""

import csv
import sys
import warnings

import openpyxl

# A warning of the library, such as of a missing default style, is a fault.
warnings.simplefilter("error")

folder, tag, revision, warning = sys.argv[1:5]
pairs = [pair.split("=", 1) for pair in sys.argv[5:]]
book = openpyxl.load_workbook(f"{folder}/schedules.xlsx")
faults, cells, numbers = [], 0, 0
expected = ["box"] + [name for name, _ in pairs]
if book.sheetnames != expected:
    faults.append(f"worksheets {book.sheetnames} instead of {expected}")
for sheet in book.worksheets:
    last = f"${openpyxl.utils.get_column_letter(sheet.max_column)}${sheet.max_row}"
    about = {
        "frozen": (sheet.freeze_panes, "A2"),
        "print area": (sheet.print_area, f"'{sheet.title}'!$A$1:{last}"),
        "repeated rows": (sheet.print_title_rows, "$1:$1"),
        "orientation": (sheet.page_setup.orientation, "landscape"),
        "fit to width": (int(sheet.page_setup.fitToWidth), 1),
        "fit to height": (int(sheet.page_setup.fitToHeight), 0),
        "fit to page": (sheet.sheet_properties.pageSetUpPr.fitToPage, True),
    }
    faults += [f"{sheet.title}: {k} {a!r} instead of {b!r}" for k, (a, b) in about.items() if a != b]
    over, under = sheet.oddHeader.left.text or "", sheet.oddFooter.left.text or ""
    # What is long is cut.
    for words, where in [(tag, over), (revision, over), ("competent person", under), (warning[:90], under)]:
        if words not in where:
            faults.append(f"{sheet.title}: `{words}` is not in `{where}`")
    for part in (sheet.oddHeader, sheet.oddFooter):
        long = sum(len(text or "") + 2 for text in (part.left.text, part.center.text, part.right.text))
        if long > 255:
            faults.append(f"{sheet.title}: {long} letters over or under the pages")
    for cell in sheet[1]:
        if not cell.font.b:
            faults.append(f"{sheet.title}: heading {cell.value} is not bold")
        if sheet.column_dimensions[cell.column_letter].width < 8:
            faults.append(f"{sheet.title}: column {cell.column_letter} has no width")
for name, file in pairs:
    sheet = book[name]
    with open(f"{folder}/{file}", encoding="utf-8", newline="") as text:
        rows = list(csv.reader(text))
    ends = {tuple(row[-2:]) for row in rows[1:]}
    if rows[0][-2:] != ["tag", "revision"] or not ends <= {(tag, revision)}:
        faults.append(f"{name}: ends with {rows[0][-2:]} and {ends}")
    rows = [row[:-2] for row in rows]
    if sheet.max_row != len(rows):
        faults.append(f"{name}: {sheet.max_row} rows instead of {len(rows)}")
    for row_number, row in enumerate(rows, start=1):
        for column, wanted in enumerate(row, start=1):
            cell = sheet.cell(row_number, column)
            value, cells = cell.value, cells + 1
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                numbers += 1
                decimals = len(wanted.partition(".")[2])
                shown = "0" if decimals == 0 else "0." + "0" * decimals
                ok = float(wanted) == value and (decimals > 4 or cell.number_format == shown)
            else:
                # CSV guards text that a spreadsheet would take for a formula; a typed cell need not.
                text = value or ""
                ok = text == wanted or "'" + text == wanted
            if not ok:
                faults.append(f"{name}: {cell.coordinate} is {value!r} instead of {wanted!r}")
print("\n".join(faults) if faults else f"cells {cells} numbers {numbers}")
sys.exit(1 if faults else 0)
