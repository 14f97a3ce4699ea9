package org.wearledger.cli;

import static org.wearledger.cli.OptionBounds.require;

import java.math.BigDecimal;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.BudgetSettings.RateSource;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine;

/** What may be set of the budget; all of it, but the quarters and probabilities, can also be changed in the workbook. */
final class BudgetOptions {
    private static final int MOST_QUARTERS = 20;

    @Option(names = "--budget-quarters", defaultValue = "8", paramLabel = "N",
        description = "Fiscal quarters to plan, this one first (default: ${DEFAULT-VALUE}).")
    private int quarters;

    @Option(names = "--fiscal-year-start", defaultValue = "1", paramLabel = "MONTH",
        description = "Month in which the fiscal year starts, 1 to 12 (default: ${DEFAULT-VALUE}).")
    private int fiscalYearStartMonth;

    @Option(names = "--install-days", defaultValue = "14", paramLabel = "DAYS",
        description = "From delivery to the day of installation (default: ${DEFAULT-VALUE}).")
    private int installSlotDays;

    @Option(names = "--plan-probability", defaultValue = "0.5", paramLabel = "P",
        description = "Plan a socketed drive for the day by which it reaches its limit with this probability. A lower value plans earlier (default: ${DEFAULT-VALUE}).")
    private double plannedProbability;

    @Option(names = "--plan-probability-soldered", defaultValue = "0.25", paramLabel = "P",
        description = "The same for soldered drives (default: ${DEFAULT-VALUE}).")
    private double plannedProbabilitySoldered;

    @Option(names = "--failure-rate", paramLabel = "RATE",
        description = "Random failures to allow for, per machine and year (default: learned from repairs.csv where it can be, else 0.01; published fleets "
            + "had 0.003 to 0.038, at second hand).")
    private Double failuresPerMachineYear;

    @Option(names = "--cost-short", paramLabel = "AMOUNT", description = "Extra cost of a replacement that is not in stock when needed; "
        + "with --cost-spare it gives order quantities.")
    private BigDecimal costOfShort;

    @Option(names = "--cost-spare", paramLabel = "AMOUNT", description = "Cost of a replacement bought too early.")
    private BigDecimal costOfSpare;

    @Option(names = "--downtime-hours", paramLabel = "HOURS", description = "Hours without the machine when a replacement is not planned.")
    private BigDecimal downtimeHours;

    @Option(names = "--downtime-cost", paramLabel = "AMOUNT", description = "Cost of one hour without the machine.")
    private BigDecimal costPerHour;

    @Option(names = "--rush-fee", paramLabel = "AMOUNT", description = "Extra for a purchase at once.")
    private BigDecimal rushFee;

    @Option(names = "--recovery-cost", paramLabel = "AMOUNT", description = "Cost of recovering data that were not backed up.")
    private BigDecimal recoveryCost;

    @Mixin
    private final MoneyOptions money = new MoneyOptions();

    BudgetSettings settings(CommandLine command) {
        require(command, quarters >= 1 && quarters <= MOST_QUARTERS, "--budget-quarters lies from 1 to " + MOST_QUARTERS + ", not " + quarters);
        require(command, fiscalYearStartMonth >= 1 && fiscalYearStartMonth <= 12, "--fiscal-year-start lies from 1 to 12, the month, not " + fiscalYearStartMonth);
        require(command, installSlotDays >= 0, "--install-days takes 0 or more, not " + installSlotDays);
        require(command, isProbability(plannedProbability), "--plan-probability lies above 0 and below 1, not " + plannedProbability);
        require(command, isProbability(plannedProbabilitySoldered), "--plan-probability-soldered lies above 0 and below 1, not " + plannedProbabilitySoldered);
        require(command, failuresPerMachineYear == null || failuresPerMachineYear >= 0 && failuresPerMachineYear <= 1,
            "--failure-rate lies from 0 to 1, such as 0.01 for 1 % a year, not " + failuresPerMachineYear);
        require(command, (costOfShort == null) == (costOfSpare == null), "--cost-short and --cost-spare are given together");
        require(command, costOfShort == null || costOfShort.signum() > 0 && costOfSpare.signum() > 0, "--cost-short and --cost-spare are above 0");
        require(command, (downtimeHours == null) == (costPerHour == null), "--downtime-hours and --downtime-cost are given together");
        require(command, isNotNegative(downtimeHours) && isNotNegative(costPerHour), "--downtime-hours and --downtime-cost take 0 or more");
        require(command, isNotNegative(rushFee), "--rush-fee takes 0 or more, not " + rushFee);
        require(command, isNotNegative(recoveryCost), "--recovery-cost takes 0 or more, not " + recoveryCost);
        return new BudgetSettings(quarters, fiscalYearStartMonth, installSlotDays, plannedProbability, plannedProbabilitySoldered,
            failuresPerMachineYear == null ? BudgetSettings.DEFAULT_FAILURES_PER_MACHINE_YEAR : failuresPerMachineYear, failuresPerMachineYear == null ? RateSource.ASSUMED : RateSource.GIVEN,
            costOfShort, costOfSpare,
            new BudgetSettings.Unplanned(downtimeHours, costPerHour, rushFee, recoveryCost), money.settings(command));
    }

    private static boolean isNotNegative(BigDecimal amount) {
        return amount == null || amount.signum() >= 0;
    }

    private static boolean isProbability(double p) {
        return p > 0 && p < 1;
    }
}
