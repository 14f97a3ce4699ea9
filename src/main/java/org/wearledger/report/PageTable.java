package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import java.util.List;

/** Tables of pages: with a caption, headings that a screen reader knows, and a scroll of their own on a narrow screen. */
final class PageTable {
    private PageTable() {
    }

    /** A name and what is said of it in each row. */
    static DomContent labelled(String caption, List<String[]> rows) {
        return scrolling(caption, table(caption(caption), tbody(each(rows, row -> tr(th(row[0]).attr("scope", "row"), td(row[1]))))));
    }

    /**
     * @param rows the headings, then the cells; the first cell of each says whose row it is
     * @param numbers the index of the first of the columns of numbers, and of the first behind them
     */
    static DomContent of(String caption, List<List<String>> rows, int... numbers) {
        return scrolling(caption, table(caption(caption),
            thead(tr(each(rows.get(0), (i, heading) -> th(heading).attr("scope", "col").withCondClass(isNumber(i, numbers), "number")))),
            tbody(each(rows.subList(1, rows.size()), row -> tr(each(row, (i, cell) -> i == 0 ? th(cell).attr("scope", "row")
                : td(cell).withCondClass(isNumber(i, numbers), "number")))))));
    }

    private static boolean isNumber(int column, int... numbers) {
        return column >= numbers[0] && column < numbers[1];
    }

    /** A wide table scrolls by itself on a narrow screen, and by keyboard. */
    static DomContent scrolling(String label, DomContent content) {
        return div(content).withClass("table").attr("role", "region").attr("tabindex", "0").attr("aria-label", label);
    }
}
