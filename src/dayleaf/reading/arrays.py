"""One name for arrays of numbers: what OpenCV and numpy promise about kinds of numbers does not fit together."""

from typing import Any

import numpy as np

Array = np.ndarray[Any, np.dtype[Any]]
"""Any array; the docstrings say which numbers it holds."""
