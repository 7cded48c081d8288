"""Job sheets to a plan: which reeving for which lift, where to change, what it costs."""
