"""The change of reeving: position, rope to leave, the way down and up, minutes, steps, rules."""
