"""host.py MODULE: loads a module that is linked with the installed library, and asks it."""

import ctypes
import math
import sys

module = ctypes.CDLL(sys.argv[1])
module.plugin_cents.restype = ctypes.c_double
# 1200 log2(81/80) by Python's own libm.
assert math.isclose(module.plugin_cents(b"syntonic comma"), 1200 * math.log2(81 / 80), rel_tol=1e-12)
assert math.isnan(module.plugin_cents(b"no such name"))
module.plugin_error.restype = ctypes.c_char_p
assert module.plugin_error(b"3/0") == b"zero_term"  # thrown in the library, caught in the module
assert module.plugin_error(b"3/2") == b""
assert module.plugin_entries() > 600
print("the module found its catalogue")
