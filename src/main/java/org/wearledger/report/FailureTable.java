package org.wearledger.report;

import static org.wearledger.report.Column.*;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Failures;
import org.wearledger.model.Failures.Incidence;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.RepairSummary.DeadDrives;
import org.wearledger.model.SweepResult;

/** How often drives fail, as a table and in words. */
final class FailureTable {
    private FailureTable() {
    }

    static Table<Incidence> of(SweepResult result) {
        return new Table<>("Failures", List.of(
            text("cause", "Cause", row -> row.cause().label()),
            decimal("fromHours", "Unharmed at", "power-on hours", 0, Incidence::fromHours),
            decimal("powerOnHours", "Until", "power-on hours", 0, Incidence::powerOnHours),
            integer("failures", "Failures seen until then", "", Incidence::failures),
            decimal("failedPercent", "Failed by this cause", "%", 2, row -> 100 * row.probability()),
            decimal("failedLow95Percent", "Failed, 95 % interval low", "%", 2, row -> row.probability95() == null ? null : (Double) (100 * row.probability95().low())),
            decimal("failedHigh95Percent", "Failed, 95 % interval high", "%", 2, row -> row.probability95() == null ? null : (Double) (100 * row.probability95().high()))), result.fleet().repairs().failures().incidences());
    }

    /** What rate the budget used. */
    static String rate(SweepResult result) {
        BudgetSettings settings = result.plan().budget().settings();
        return Wording.number(100 * settings.failuresPerMachineYear(), 2) + " % of machines a year, " + switch (settings.failuresFrom()) {
            case ASSUMED -> "assumed" + (result.fleet().repairs().isEmpty() ? "" : ": " + learned(result.fleet().repairs()));
            case GIVEN -> "as given";
            case LEARNED -> "learned: " + learned(result.fleet().repairs());
        };
    }

    /** Whether {@link #rate} says in the budget what own repairs tell. */
    static boolean isInBudget(SweepResult result) {
        return result.plan().budget() != null && result.plan().budget().settings().failuresFrom() != BudgetSettings.RateSource.GIVEN;
    }

    /** What own repairs tell of failures, or why they tell no rate. */
    static String learned(RepairSummary repairs) {
        Failures failures = repairs.failures();
        return switch (failures.basis()) {
            case FOLLOWED, IN_FIELD -> String.format(Locale.ROOT, "%d drives failed without being worn in %,.0f drive years, %.2f %% a year; by drive model in %s", failures.failures(),
                failures.driveYears(), 100 * failures.failures() / failures.driveYears(), SweepWriter.MODELS_CSV) + notInRate(repairs);
            case TOO_FEW -> "fewer than " + Failures.LEAST + " drives that were seen before failed without being worn: no failure rate is learned";
            case NOT_FOLLOWED -> "how often drives fail is not known without the number in use (ratings.csv, inField)";
        };
    }

    /** The dead drives that the rate leaves out, those that may have been worn among them. */
    private static String notInRate(RepairSummary repairs) {
        DeadDrives dead = repairs.deadDrives();
        int missing = Math.max(0, dead.dead() - dead.worn() - repairs.failures().failures());
        if (missing == 0) {
            return "";
        }
        if (repairs.failures().basis() == Failures.Basis.FOLLOWED) {
            return ". Not in it: " + Wording.count(missing, "dead drive") + " that no earlier report tells of";
        }
        int notRead = Math.min(missing, dead.dead() - dead.read());
        return ". Not in it: " + Stream.of(notRead == 0 ? "" : Wording.count(notRead, "dead drive") + " that could not be read, so the rate is rather too low",
            missing == notRead ? "" : (missing - notRead) + " of models without a number in the field").filter(words -> !words.isEmpty()).collect(Collectors.joining("; "));
    }

    /** Why {@link SweepWriter#FAILURES_CSV} is not there. */
    static String noAges(Failures failures) {
        return SweepWriter.FAILURES_CSV + " is not written: " + switch (failures.basis()) {
            case IN_FIELD -> "the number in the field does not tell the age of each drive";
            case NOT_FOLLOWED -> "most drives were seen only when they came in";
            case FOLLOWED, TOO_FEW -> "fewer than " + Failures.LEAST + " drives failed that were seen before";
        };
    }
}
