"""Reads a PDF in base64 from standard input and prints for each page how much of its height text or a drawing takes,
from the top edge down to the lowest text, as a share."""

import base64
import io
import sys

import pypdf

reader = pypdf.PdfReader(io.BytesIO(base64.b64decode(sys.stdin.read())))
for page in reader.pages:
    height = float(page.mediabox.height)
    lowest = height

    def seen(text, user, matrix, font, size):
        global lowest
        # The place on the page; what stands in the lower margin is the number of the page.
        up = matrix[4] * user[1] + matrix[5] * user[3] + user[5]
        if text.strip() and up > 40:
            lowest = min(lowest, up)

    page.extract_text(visitor_text=seen)
    print(round((height - lowest) / height, 3))
