package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.PricedItem;

/** The budget in words. */
final class BudgetText {
    /** Of the money columns of the sheet "Budget". */
    static final Map<String, String> MEANINGS = Map.of(
        "plan", "the named replacements, or the cost that is exceeded as often as not where that is more",
        "contingency", "what is asked beyond the plan so that four times in five it suffices; dearer choices are priced in",
        "allowance", "for drives that fail without having worn out: most failures; machines x rate x mean cost",
        "toAskFor", "plan, contingency and allowance: suffices for wear four times in five",
        "cap", "suffices for wear nine times in ten, with the allowance",
        "namedAmount", "the lines of the sheet Replacements up to then: machine, day, purchase");
    private static final int YEAR = 4;

    private final Budget budget;

    BudgetText(Budget budget) {
        this.budget = budget;
    }

    /** The first four quarters, or all where there are fewer. */
    BudgetPeriod year() {
        return budget.quarters().stream().filter(p -> p.quarters() == Math.min(YEAR, budget.settings().quarters()) && p.quarters() > 1)
            .findFirst().orElse(budget.quarters().get(0));
    }

    /** What must be known with the amounts. */
    List<MethodNotes.Note> notes() {
        BudgetPeriod year = year();
        List<MethodNotes.Note> notes = new ArrayList<>();
        if (year.counts() == null) {
            notes.add(new MethodNotes.Note("No probabilities", "by the method of the straight line there are named replacements only: no P50, P80 or P90"));
        } else {
            notes.add(new MethodNotes.Note("How many", String.format(Locale.ROOT, "%d named; as likely as not up to %d for wear, four times in five up to %d, "
                + "nine in ten up to %d%s", year.named(), year.counts().p50(), year.counts().p80(), year.counts().p90(),
                year.independentP90() >= year.counts().p90() ? "" : String.format(Locale.ROOT, ". If drives had nothing in common that last would be %d: "
                    + "too low, since a change of work or software speeds many up at once", year.independentP90()))));
        }
        List<String> unpriced = budget.items().stream().filter(item -> item.price() == null && isBought(item)).map(PricedItem::item).toList();
        if (!unpriced.isEmpty()) {
            notes.add(new MethodNotes.Note("Without a price", String.join(", ", unpriced) + ": fill in on Assumptions; until then the amounts lack it"));
        }
        long stale = budget.lines().stream().filter(line -> line.stale()).count();
        if (stale > 0) {
            notes.add(new MethodNotes.Note("Stale figures", Wording.count(stale, "replacement") + " rest on reports older than this sweep; the lines say which"));
        }
        return notes;
    }

    private boolean isBought(PricedItem item) {
        return item.machines() > 0 || budget.lines().stream().anyMatch(line -> line.upperItem().equals(item.item()));
    }

    /** The budget as bullets of the summary. */
    List<String> bullets() {
        BudgetPeriod year = year();
        List<String> bullets = new ArrayList<>();
        bullets.add(year.label() + ", until " + year.until() + ": ask for " + money(year.plan().add(year.contingency()).add(year.allowance()))
            + " = plan " + money(year.plan()) + " + contingency " + money(year.contingency()) + " + allowance for random failures "
            + money(year.allowance()) + "; cap (P90) " + money(year.cap().add(year.allowance())));
        notes().forEach(note -> bullets.add(note.topic().toLowerCase(Locale.ROOT) + ": " + note.text()));
        long now = budget.lines().stream().filter(line -> line.late()).count();
        if (now > 0) {
            bullets.add("order at once: " + Wording.count(now, "replacement") + "; which, stands in replacements.csv and the work list");
        }
        return bullets;
    }

    private String money(BigDecimal amount) {
        return String.format(Locale.ROOT, "%,.2f", amount) + (budget.currency().isEmpty() ? "" : " " + budget.currency());
    }
}
