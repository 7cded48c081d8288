"""A change of reeving as it is done at the crane: what is asked, what was entered, what it means."""
