"""What stands against an act with an animal: one table, asked by every act and plan."""
