"""What every printed page of the kit needs, whatever is on it: fonts, the typesetter, a web page that prints."""
