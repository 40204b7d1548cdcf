"""Recording a litter."""
