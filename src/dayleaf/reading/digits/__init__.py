"""Which digit a crop of 28 × 28 pixels shows, and how certain that is."""

from dayleaf.reading.digits.deciding import Reading, decide
from dayleaf.reading.digits.files import NotDigits, read_file
from dayleaf.reading.digits.network import read_crops, read_signs

__all__ = ["NotDigits", "Reading", "decide", "read_crops", "read_file", "read_signs"]
