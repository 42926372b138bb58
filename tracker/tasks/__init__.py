"""One function per thing a person asks for, with one transaction around it."""
