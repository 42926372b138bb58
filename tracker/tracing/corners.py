"""What corners are called where the maker gave them no name."""

#: The trade's names, by the two edges that meet there.
_TRADE = {
    frozenset(("neckline", "shoulder")): "neck point",
    frozenset(("shoulder", "armhole")): "shoulder point",
    frozenset(("armhole", "side")): "underarm point",
    frozenset(("armhole", "underarm")): "underarm point",
    frozenset(("side", "waist")): "side waist",
    frozenset(("side", "hem")): "side hem",
    frozenset(("crotch", "inside leg")): "inside leg point",
    frozenset(("inside leg", "hem")): "inside hem",
}
_ON_A_CENTRE = {"neckline": "neck", "waist": "waist", "hem": "hem"}


def corner_between(one: str, other: str) -> str:
    """Return the name of the corner between two edges; which comes first makes no difference.

    Example:
        >>> corner_between("side", "armhole"), corner_between("hem", "pleat")
        ('underarm point', 'hem pleat corner')
    """
    known = _TRADE.get(frozenset((one, other)))
    if known:
        return known
    for centre, edge in ((one, other), (other, one)):
        if centre.startswith("centre ") and edge in _ON_A_CENTRE:
            return f"{centre} {_ON_A_CENTRE[edge]}"
    return f"{min(one, other)} {max(one, other)} corner"


def named_apart(given: list[str], usual: list[str]) -> list[str]:
    """Return corner names: what was given as it is, the usual for the others, numbered apart."""
    seen = {name: 1 for name in given if name}
    out = []
    for name, otherwise in zip(given, usual, strict=True):
        if name:
            out.append(name)
            continue
        seen[otherwise] = seen.get(otherwise, 0) + 1
        out.append(otherwise if seen[otherwise] == 1 else f"{otherwise} {seen[otherwise]}")
    return out
