package org.wearledger.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Health;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;

/** How each figure comes about and what it does not say, in plain words. */
final class MethodNotes {
    record Note(String topic, String text) {
    }

    private MethodNotes() {
    }

    static List<Note> of(SweepResult result) {
        List<Note> notes = new ArrayList<>();
        notes.addAll(figures(result));
        notes.addAll(forecasts(result));
        notes.addAll(standings(result.settings()));
        notes.addAll(budget(result));
        notes.addAll(limits());
        notes.addAll(bookkeeping(result));
        Arrays.stream(ProblemKind.values()).map(kind -> new Note("Rule " + kind.id(),
            FactWords.meaning(kind) + " (" + kind.effect().label() + ")")).forEach(notes::add);
        notes.add(new Note("Software", "Wearledger " + result.version()));
        return notes;
    }

    private static List<Note> figures(SweepResult result) {
        return List.of(
            new Note("As-of date", result.asOf() == null ? "None: no reading was kept."
                : "All figures are for " + result.asOf() + (result.settings().asOf() == null
                    ? ", the date (UTC) of the latest report." : ", the date asked for.")
                + " A machine whose latest report is more than "
                + Wording.count(result.settings().recentDays(), "day") + " older counts as not reported this sweep."),
            new Note("Written", "Data units written x " + String.format(Locale.ROOT, "%,d",
                Health.BYTES_PER_DATA_UNIT) + " bytes, host writes only, in decimal terabytes. Source: NVM Express "
                + "Base Specification, SMART / Health Information log page (LID 02h). Counter epochs are added up."),
            new Note("Rated", "The ratings table's figure for the drive model and capacity, with its source. Where no "
                + "row fits, 0.6 TB written per GB of capacity stands in: common practice, no source. Such a rating "
                + "is assumed and is marked \"assumed\" wherever it is shown."),
            new Note("Consumed of rated", "100 x terabytes written / rated terabytes written."),
            new Note("Percentage used", "The drive controller's own estimate of life used. It may pass 100; 255 means "
                + "255 or more. It is a whole number and each maker works it out in its own way."),
            new Note("Which counts", Wording.TWO_MEASURES + "."),
            new Note("Implied endurance", "Terabytes written / percentage used, with percentage used taken as its "
                + "value plus or minus 1: the endurance the controller's own estimate implies. A low end with an empty "
                + "high end means \"or more\", a low end of 0 \"at most\": at 255 %, and at 100 %, as a life remaining of "
                + "0 is read, the true figure may be higher. None is given at 0 % or where a counter went back."),
            new Note("Write rate", "The Theil-Sen slope (median of the slopes between pairs of readings) over the last "
                + "year's readings; where these do not suffice, the average over the drive's life."),
            new Note("Straight line", "The baseline: the date at which the latest reading, carried on at the write rate, meets "
                + "the rating. It carries NO stated uncertainty; none is given beyond ten years."),
            new Note("Consumed per year", "Write rate x 365.25 days / rated terabytes written. It compares drive "
                + "models of unlike capacity; ratings may be assumed, see the count beside it."),
            new Note("Comparing drive models", Wording.sentenceCase(Wording.TWO_COMPARISONS) + "."));
    }

    private static List<Note> forecasts(SweepResult result) {
        FleetModel model = result.fleet().fleetModel();
        if (model == null) {
            return List.of(new Note("Method", "straight-line: standings due and watch go by the straight line's date."));
        }
        return List.of(
            new Note("Method", "pooled: dates and probabilities come from a model of how the whole fleet writes. Each drive's "
                + "own quarters count, steadied by its drive model and the fleet; a drive may change its pace, so the range "
                + "widens with time. notebooks-free-docs/projections.md explains it, in plain words and in formulas."),
            new Note("Bytes reach rating", "Three dates: by the first the rating is reached in one case of ten, by the second as "
                + "likely as not, by the third in nine of ten. An empty cell is more than ten years ahead, or passed already: the reason says which. \"Beyond evidence\" "
                + "marks a date more than three times as far ahead as the drive was observed."),
            new Note("Controller reaches 100 %", "The same for the controller's own estimate, whose whole number is taken as "
                + "plus or minus 1. None below 5 % where bytes written are reported: too coarse."),
            new Note("Fitted model", String.format(Locale.ROOT, "Gamma process with a random rate, on %,d drives: shape %.3f a "
                + "quarter, between drives shape %.3f and rate %.5f of the rating; drift of the log rate %.2f a quarter%s.",
                model.drives(), model.shapePerQuarter(), model.betweenDrivesShape(), model.betweenDrivesRate(),
                model.driftPerQuarter(), model.driftAssumed() ? " (assumed: too few quarters to learn it)" : "")),
            new Note("Calibration", Wording.calibration(result)),
            new Note("What the forecasts leave out", "Wear is not failure, and most drives that fail do so for other causes. "
                + "Intervals are for one drive each: a change common to all drives (a software release, a move to other work) "
                + "makes them miss together. Use that changes faster than the drift above is not foreseen."));
    }

    private static List<Note> budget(SweepResult result) {
        Budget budget = result.plan().budget();
        if (budget == null) {
            return List.of();
        }
        BudgetSettings settings = budget.settings();
        List<Note> notes = new ArrayList<>();
        notes.add(new Note("Budget: need date", "Urgent and past rating: the as-of date. Otherwise the day by which the drive crosses a limit with a "
            + "probability of " + Wording.number(100 * settings.plannedProbability(), 0) + " %; of "
            + Wording.number(100 * settings.plannedProbabilitySoldered(), 0) + " % where it is soldered, because then the board or the machine goes "
            + "with it. By the straight line: its date. Order by = need date less lead time and install slot."));
        notes.add(new Note("Budget: what is bought", "A socketed drive: the smallest item \"drive N GB\" of the price list that is as large, else \"drive\". A "
            + "soldered one: \"board\" where the list has it, else \"machine\"; either may name a machine model. P80 and P90 take the dearer of board and "
            + "machine for soldered drives, and for those whose attachment is not known."));
        if (result.fleet().fleetModel() != null) {
            notes.add(new Note("Budget: P50, P80, P90", String.format(Locale.ROOT, "How many cross, and what that costs, over all machines, named or not: exact "
                + "Poisson-binomial counts, mixed over a shock of the log rate that all drives share, %.2f a quarter (learned from %s of quarters, "
                + "with 0.2 counted as four). Quantiles of several quarters are not the sums of theirs. The workbook keeps the "
                + "purchases that make them up, so that other prices carry over; sweep again after large changes.", result.fleet().fleetModel().sharedShockPerQuarter(),
                Wording.count(result.fleet().fleetModel().shockPairs(), "pair"))));
        }
        notes.add(new Note("Budget: random failures", "Most drives that fail have not worn out. Allowed for: "
            + Wording.number(100 * settings.failuresPerMachineYear(), 2) + " % of machines a year. Studies of large fleets saw 0.3 % to 3.8 % by drive "
            + "model, about 1 % in the middle (Han et al., FAST 2021; Lu et al., ATC 2022; figures at second hand)."));
        notes.add(new Note("Budget: cost of waiting", "A replacement that is not planned costs an extra: hours without the machine x their cost + rush fee + data "
            + "recovery. One put off by a year saves a year's cost of its money. Waiting pays while the chance of failing within the year is below the "
            + "one shown. Urgent drives fail already and are left out. Empty until the costs are given, with the sweep or on Assumptions."));
        notes.add(new Note("Coverage, Changes, Warranty", "Coverage: machines without a usable report this sweep, or that the inventory does not know; they stay in the "
            + "plan, marked stale. Changes: against an earlier sweep; \"not done yet\" was planned for before the present quarter and is still needed, \"order "
            + "overdue\" could wait then; order dates count from 14 days on, a new price once for its item; "
            + "write rates count from a half more or less and 5 GB a day on. Warranty: so many years or the rated bytes, whichever comes first, "
            + "by drive and by machine; a drive that fails before both is a claim to ask for."));
        notes.add(new Note("Budget: to have ready", settings.costOfShort() == null ? "Order quantities need --cost-short and --cost-spare."
            : "The least number that suffices with a probability of cost short / (cost short + cost spare) = " + settings.costOfShort() + " / ("
                + settings.costOfShort() + " + " + settings.costOfSpare() + ")."));
        return notes;
    }

    private static List<Note> standings(SweepSettings settings) {
        boolean pooled = settings.method() == ProjectionMethod.POOLED;
        // Whole days, as dates are compared.
        long dueDays = (long) (settings.leadTimeDays() + SweepSettings.DAYS_PER_QUARTER);
        long watchDays = (long) (4 * SweepSettings.DAYS_PER_QUARTER);
        return Arrays.stream(Standing.values()).map(standing -> new Note("Standing: " + standing.label(),
            switch (standing) {
                case URGENT -> "First rule that fits counts, from here down. The drive itself reports a failing state: "
                    + "reliability degraded, media read-only, spare at or below its threshold, or media errors that "
                    + "rose within the last year.";
                case PAST_RATING -> "Written has reached the rating, or the controller's percentage used has "
                    + "reached 100.";
                case DUE -> pooled ? "The probability of reaching the rating, or 100 % by the controller, within the lead time "
                    + "of " + Wording.count(settings.leadTimeDays(), "day") + " plus one quarter, together "
                    + Wording.count(dueDays, "day") + ", is at least " + Wording.number(100 * settings.dueProbability(), 0) + " %."
                    : "The straight line reaches the rating within the lead time of "
                    + Wording.count(settings.leadTimeDays(), "day") + " plus one quarter, together "
                    + Wording.count(dueDays, "day") + ".";
                case WATCH -> pooled ? "That probability within four quarters, " + Wording.count(watchDays, "day")
                    + ", is at least " + Wording.number(100 * settings.watchProbability(), 0) + " %."
                    : "The straight line reaches the rating within four quarters, "
                    + Wording.count(watchDays, "day") + ".";
                case WITHIN_RATING -> "None of the above.";
                case NO_VERDICT -> "Too little is reported for any of the above; the reason says what is missing.";
            } + " Next step: " + standing.nextStep() + ".")).toList();
    }

    private static List<Note> limits() {
        return List.of(
            new Note("Reaching the rating is not failure", "The rating is how much writing the maker stands behind. "
                + "Drives go on past it, and most drives that fail do so for other causes and with no warning. So back "
                + "up always, whatever the standing."),
            new Note("Storing worn drives", "JEDEC JESD218 (client class) asks that a drive at the end of its rated "
                + "life keep its data unpowered for one year at 30 \u00b0C; warmer is shorter. Do not store a worn "
                + "drive with data on it unpowered."),
            new Note("Cautions", String.join(" ", CAUTIONS)));
    }

    /** Closing lines of the summary, too. */
    static final List<String> CAUTIONS = List.of(
        "Back up first, before anything else is done to a machine.",
        "Opening machines, work near batteries and soldering are for qualified people only.",
        "Wipe drives, and dispose of drives and batteries, by your local rules for data and e-waste.");

    private static List<Note> bookkeeping(SweepResult result) {
        return List.of(
            new Note("Own machines and customers'", "Whose a machine is the column ownership of the inventory says, else the option --ownership: here " + result.ownMachines().size()
                + " own and " + result.customersMachines().size() + " customers'. A customer's machine is judged, and it counts in what the fleet's model and the comparisons rest on. It is in "
                + "no plan, budget, work list, list of changes or of warranties, and is not missed when it does not report."),
            new Note("Sums", String.join("; ", SummaryText.sums(result.accounting())) + ". Nothing that was found is "
                + "left out of these sums."),
            new Note("Side tables", "Rows used: " + result.files().ratings() + " of ratings, " + result.files().inventoryMachines()
                + " of inventory, " + result.files().prices() + " of prices, " + result.files().repairs() + " of repairs, from "
                + Wording.count(result.accounting().sideTables(), "side table") + "."
                + (result.files().sideTables().isEmpty() ? "" : " Files: " + String.join(", ", result.files().sideTables()) + ".")));
    }
}
