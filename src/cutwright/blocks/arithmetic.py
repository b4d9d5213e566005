"""How the sums of a draft are written down, so that each holds as it is printed."""

from __future__ import annotations

from cutwright.pattern.result import Figure


def shown(value: float, places: int = 2) -> str:
    """A number with as many decimals as it needs, at least one."""
    text = f"{value:.{places}f}".rstrip("0")
    text = text + "0" if text.endswith(".") else text
    return "0.0" if text in {"-0.0", "-0"} else text


def signed(value: float) -> str:
    """A number with its sign as it stands in a sum: `+ 7.0`, `- 1.5`."""
    return f"{'-' if value < 0 else '+'} {shown(abs(value))}"


def half_with_ease(what: str, girth: float, ease: float) -> Figure:
    """Half of a girth with its ease, followed back."""
    whole = round(girth, 2) + round(ease, 2)
    return Figure(
        what,
        (girth + ease) / 2,
        "cm",
        f"({shown(girth)} {signed(ease)}) ÷ 2 = {shown(whole / 2, 3)}",
    )


def total(what: str, parts: list[tuple[str, float]]) -> Figure:
    """A sum of named lengths, each as it is printed."""
    rounded = [(name, round(value, 2)) for name, value in parts]
    words = " + ".join(f"{name} {shown(value)}" for name, value in rounded)
    value = sum(value for _name, value in rounded)
    how = f"{words} = {shown(value)}" if len(parts) > 1 else words
    return Figure(what, sum(value for _name, value in parts), "cm", how)
