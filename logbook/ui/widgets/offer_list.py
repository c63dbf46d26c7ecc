"""The list of what a line of a form may mean."""

from rich.cells import cell_len
from textual.content import Content
from textual.widgets import Static

from logbook.ui.widgets.bars import show_once
from logbook.ui.widgets.form_lines import FormInput, FormNote

MOST_OFFERS = 6


class OfferList(Static):
    """The list of what a line may mean; the one that Enter takes is marked."""

    def show(self, line: FormInput | FormNote | None) -> None:
        fits = line.fits if isinstance(line, FormInput) else ()
        self.display = bool(fits)
        if not fits or not isinstance(line, FormInput):
            return
        first = max(0, min((line.mark or 0) - MOST_OFFERS // 2, len(fits) - MOST_OFFERS))
        shown = fits[first : first + MOST_OFFERS]
        width = max(cell_len(offer) for offer in shown)
        lines = []
        for at, offer in enumerate(shown, first):
            marked, beside = at == line.mark, line.beside.get(offer, "")
            words = f"{'>' if marked else ' '} {offer + ' ' * (width - cell_len(offer))}  {beside}"
            lines.append(Content.styled(words.rstrip(), "bold" if marked else ""))
        left = len(fits) - len(shown)
        if left:
            lines.append(Content.styled(f"  {left} more", "$text-past"))
        show_once(self, Content("\n").join(lines), layout=True)
