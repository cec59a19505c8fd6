"""Actions and movements: what was done, is to be done or bought, came off and went on."""
