"""The use cases that both faces call. A face draws and reads keys; what is done stands here."""
