"""Make the README's picture from the real panel: `python notebooks/pictures/make.py`."""

import io
from pathlib import Path

from PIL import Image

from workbook.panels import two_layouts

PAPER = (255, 255, 255)


def main() -> None:
    """Put the panel's two sharp pictures under each other."""
    panel = two_layouts()
    parts = [Image.open(io.BytesIO(image.value)).convert("RGB") for image in panel.images.values()]
    sheet = Image.new("RGB", (parts[0].width, sum(part.height for part in parts)), PAPER)
    top = 0
    for part in parts:
        sheet.paste(part, (0, top))
        top += part.height
    sheet = sheet.resize((sheet.width // 2, sheet.height // 2), Image.Resampling.LANCZOS)
    few = sheet.quantize(256, method=Image.Quantize.MEDIANCUT, dither=Image.Dither.NONE)
    few.save(Path(__file__).with_name("two_layouts.png"), optimize=True)


if __name__ == "__main__":
    main()
