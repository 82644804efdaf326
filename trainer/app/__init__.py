"""The terminal program: screens, widgets and their styles. It draws and reads keys."""
