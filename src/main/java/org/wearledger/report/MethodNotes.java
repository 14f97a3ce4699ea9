package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.ResourceBundle;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Health;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;

/** How each figure comes about and what it does not say: the texts of {@code method.properties} with the sweep's own figures in them. */
final class MethodNotes {
    /** Closing lines of the summary, too. */
    static final List<String> CAUTIONS = List.of(
        "Back up first, before anything else is done to a machine.",
        "Opening machines, work near batteries and soldering are for qualified people only.",
        "Wipe drives, and dispose of drives and batteries, by your local rules for data and e-waste.");
    private static final ResourceBundle TEXTS = ResourceBundle.getBundle(MethodNotes.class.getPackageName() + ".method", Locale.ROOT);

    record Note(String topic, String text) {
    }

    private final SweepResult result;
    private final List<Note> notes = new ArrayList<>();

    private MethodNotes(SweepResult result) {
        this.result = result;
    }

    static List<Note> of(SweepResult result) {
        return new MethodNotes(result).all();
    }

    private List<Note> all() {
        figures();
        forecasts(result.fleet().fleetModel());
        standings(result.settings());
        if (result.plan().budget() != null) {
            budget(result.plan().budget());
        }
        add("Reaching the rating is not failure");
        add("Storing worn drives");
        add("Cautions", String.join(" ", CAUTIONS));
        bookkeeping();
        return notes;
    }

    private void add(String topic, Object... figures) {
        addAs(topic, "", figures);
    }

    /** @param otherwise behind the topic, of a text that stands in for the usual one */
    private void addAs(String topic, String otherwise, Object... figures) {
        String key = topic.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+$", "").replaceAll("[^a-z0-9]+", "-");
        notes.add(new Note(topic, String.format(Locale.ROOT, TEXTS.getString(key + otherwise), figures)));
    }

    private void figures() {
        addAs("As-of date", result.asOf() == null ? "-none" : "", result.asOf(), result.settings().asOf() == null ? "the date (UTC) of the latest report." : "the date asked for.",
            Wording.count(result.settings().recentDays(), "day"));
        add("Written", Health.BYTES_PER_DATA_UNIT);
        add("Rated");
        add("Consumed of rated");
        add("Percentage used");
        add("Which counts", Wording.TWO_MEASURES);
        add("Implied endurance");
        add("Write rate");
        add("Straight line");
        add("Consumed per year");
        add("Comparing drive models", Wording.sentenceCase(Wording.TWO_COMPARISONS));
        add("Comparing machine models");
    }

    /** @param model {@code null} for the method of the straight line */
    private void forecasts(FleetModel model) {
        if (model == null) {
            addAs("Method", "-straight-line");
            return;
        }
        add("Method");
        add("Bytes reach rating");
        add("Controller reaches 100 %");
        add("Fitted model", model.drives(), model.shapePerQuarter(), model.betweenDrivesShape(), model.betweenDrivesRate(), model.driftPerQuarter(),
            model.driftAssumed() ? " (assumed: too few quarters to learn it)" : "");
        add("Calibration", Wording.calibration(result));
        add("What the forecasts leave out");
    }

    private void standings(SweepSettings settings) {
        // Whole days, as dates are compared.
        String dueDays = Wording.count((long) (settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER), "day");
        String watchDays = Wording.count((long) (4 * SweepSettings.DAYS_PER_QUARTER), "day");
        for (Standing standing : Standing.values()) {
            boolean byLine = settings.method() != ProjectionMethod.POOLED && (standing == Standing.DUE || standing == Standing.WATCH);
            addAs("Standing: " + standing.label(), byLine ? "-straight-line" : "", standing.nextStep(), Wording.count(settings.leadTimeDays(), "day"), dueDays, watchDays,
                Wording.number(100 * settings.dueProbability(), 0), Wording.number(100 * settings.watchProbability(), 0));
        }
    }

    private void budget(Budget budget) {
        BudgetSettings settings = budget.settings();
        FleetModel model = result.fleet().fleetModel();
        add("Budget: need date", Wording.number(100 * settings.plannedProbability(), 0), Wording.number(100 * settings.plannedProbabilitySoldered(), 0));
        add("Budget: what is bought");
        if (model != null) {
            add("Budget: P50, P80, P90", model.sharedShockPerQuarter(), Wording.count(model.shockPairs(), "pair"));
        }
        add("Budget: random failures", FailureTable.rate(result));
        add("Budget: what is put off");
        add("Coverage, Changes, Warranty");
        addAs("Budget: to have ready", settings.costOfShort() == null ? "-without-costs" : "", settings.costOfShort(), settings.costOfSpare());
    }

    private void bookkeeping() {
        SweepResult.Files files = result.files();
        add("Own machines and customers'", result.ownMachines().size(), result.customersMachines().size());
        add("Sums", String.join("; ", FileSum.sums(result.accounting())));
        add("Side tables", files.ratings(), files.inventoryMachines(), files.prices(), files.repairs(), files.decisions(), Wording.count(result.accounting().sideTables(), "side table"),
            files.sideTables().isEmpty() ? "" : " Files: " + String.join(", ", files.sideTables()) + ".");
        add("Software", result.version());
    }
}
