"""The command line: commands, terminal text, and the files a plan is written to."""
