"""Where things of the checkout are, however deep the test that asks."""

from pathlib import Path

ROOT = Path(__file__).parents[2]
SAMPLE_FILES = ROOT / "sample_colony"
FIXTURES = ROOT / "tests" / "fixtures"
SUPPORT = ROOT / "tests" / "support"
