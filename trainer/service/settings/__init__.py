"""What the student set in `settings.toml`: declared, read, and written with care."""

from trainer.service.settings.declared import Settings
from trainer.service.settings.reading import ReadSettings, read_settings

__all__ = ["ReadSettings", "Settings", "read_settings"]
