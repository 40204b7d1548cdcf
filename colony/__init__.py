"""The colony book of a freshwater stingray breeder."""

__version__ = "0.1.0"
