"""The kinds of arrays that planning computes with."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Index = NDArray[np.intp]
Bools = NDArray[np.bool_]
