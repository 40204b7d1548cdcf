"""The colony book of a freshwater stingray breeder."""
