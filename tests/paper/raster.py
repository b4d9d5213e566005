"""Printed files seen as pictures, and layers switched off in them, for the tests."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
from numpy.typing import NDArray

from cutwright.paper.pdf import LAYER_WORDS

Picture = NDArray[np.uint8]


def without_layers(content: bytes, *layers: str) -> bytes:
    """The same file with some of its layers switched off, as a reader would do it."""
    names = {LAYER_WORDS[layer] for layer in layers}
    with pikepdf.Pdf.open(BytesIO(content)) as pdf:
        groups = list(pdf.Root.OCProperties.OCGs)
        off = [group for group in groups if str(group.Name) in names]
        pdf.Root.OCProperties.D.OFF = pikepdf.Array(off)
        pdf.Root.OCProperties.D.ON = pikepdf.Array([g for g in groups if g not in off])
        out = BytesIO()
        pdf.save(out)
    return out.getvalue()


def pictures(content: bytes, per_cm: float) -> list[Picture]:
    """Every page in grey, at a resolution in pixels a centimetre."""
    document = pypdfium2.PdfDocument(content)
    try:
        scale = per_cm * 2.54 / 72 * (1 - 1e-7)  # whole pages must not round up to a pixel more
        shots = [page.render(scale=scale, grayscale=True).to_numpy() for page in document]
        return [np.array(shot).reshape(shot.shape[:2]) for shot in shots]
    finally:
        document.close()


def page_pictures(path: Path, per_cm: float) -> list[Picture]:
    return pictures(path.read_bytes(), per_cm)
