"""The colours: black water by night, a sand bar by day, and the plain 16 of an old terminal."""

from textual.theme import Theme

BLACKWATER = Theme(
    name="blackwater",
    dark=True,
    background="#12100e",
    surface="#1c1815",
    panel="#2b241e",
    foreground="#eee4d0",
    primary="#e9a23b",
    secondary="#6fb7a9",
    accent="#f4d8a0",
    success="#9bc46b",
    warning="#e9a23b",
    error="#f0796a",
    variables={
        "quiet": "#a8997f",
        "line": "#4a3f33",
        "cursor": "#3d3122",
        "block-cursor-background": "#e9a23b",
        "block-cursor-foreground": "#12100e",
        "block-cursor-blurred-background": "#3d3122",
        "block-cursor-blurred-foreground": "#eee4d0",
        "input-cursor-background": "#e9a23b",
        "input-selection-background": "#6fb7a9 40%",
    },
)
"""Tannin-dark water, sand, and the orange eye-spots of a motoro."""

SANDBAR = Theme(
    name="sandbar",
    dark=False,
    background="#f6efe1",
    surface="#efe5d1",
    panel="#e2d4b8",
    foreground="#2a2118",
    primary="#854600",
    secondary="#1c625a",
    accent="#6b3a00",
    success="#3f6b12",
    warning="#854600",
    error="#a3261a",
    variables={
        "quiet": "#615340",
        "line": "#c4b290",
        "cursor": "#efdfb8",
        "block-cursor-background": "#854600",
        "block-cursor-foreground": "#fff9ec",
        "block-cursor-blurred-background": "#efdfb8",
        "block-cursor-blurred-foreground": "#2a2118",
        "input-cursor-background": "#854600",
        "input-selection-background": "#1f6b62 40%",
    },
)
"""Sand in daylight: dark tannin on light ground, for a bright room."""

SIXTEEN = Theme(
    name="sixteen",
    dark=True,
    ansi=True,
    background="ansi_black",
    surface="ansi_black",
    panel="ansi_black",
    foreground="ansi_white",
    primary="ansi_bright_yellow",
    secondary="ansi_bright_cyan",
    accent="ansi_bright_white",
    success="ansi_bright_green",
    warning="ansi_bright_yellow",
    error="ansi_bright_red",
    variables={
        "quiet": "ansi_white",
        "line": "ansi_white",
        "cursor": "ansi_blue",
        "ansi-background": "ansi_black",
        "ansi-foreground": "ansi_white",
        "border-blurred": "ansi_white",
        "block-cursor-background": "ansi_bright_yellow",
        "block-cursor-foreground": "ansi_black",
        "block-cursor-blurred-background": "ansi_blue",
        "block-cursor-blurred-foreground": "ansi_bright_white",
        "input-cursor-background": "ansi_bright_yellow",
        "input-cursor-foreground": "ansi_black",
        "input-selection-background": "ansi_blue",
    },
)
"""The colours that every terminal has."""

THEMES = (BLACKWATER, SANDBAR, SIXTEEN)


def theme_for(color_system: str | None, *, no_color: bool) -> str:
    """The theme a terminal begins with, by the colours it has and may show."""
    plain = no_color or color_system in {None, "standard", "windows"}
    return SIXTEEN.name if plain else BLACKWATER.name
