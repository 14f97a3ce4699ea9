package org.wearledger.cli;

import static org.wearledger.cli.OptionBounds.require;

import org.wearledger.model.BudgetSettings.RateSource;
import org.wearledger.model.MoneySettings;
import picocli.CommandLine.Option;
import picocli.CommandLine;

/** Assumptions about money; all can also be changed in the workbook, but the names of years. */
final class MoneyOptions {
    private static final double MOST_YEARS = 50;

    @Option(names = "--machine-share", paramLabel = "SHARE", description = "Share of boards that turn out to be whole machines, and of drives of unknown attachment that turn "
        + "out to be soldered (default: as learned from repairs.csv where it can be, else 0.2).")
    private Double machineShare;

    @Option(names = "--refresh-share", defaultValue = "0.6", paramLabel = "SHARE", description = "Replace the machine where a board costs more than this share of it (default: ${DEFAULT-VALUE}).")
    private double refreshShare;

    @Option(names = "--refresh-age", defaultValue = "7", paramLabel = "YEARS", description = "Replace a machine that is older when its drive is due (default: ${DEFAULT-VALUE}).")
    private double refreshAgeYears;

    @Option(names = "--warranty-share", defaultValue = "0.5", paramLabel = "SHARE", description = "Share of warranty claims that you expect the maker to meet (default: ${DEFAULT-VALUE}).")
    private double warrantyShare;

    @Option(names = "--vat", defaultValue = "0", paramLabel = "PERCENT", description = "Value added tax on the funding request (default: ${DEFAULT-VALUE}).")
    private double vatPercent;

    @Option(names = "--year-name", paramLabel = "NAME", description = "How you name a fiscal year, with {start} and {end} for its years or {start2} and {end2} for two digits, such as "
        + "{start}/{end2} (default: {end}, or FY{end} where it does not start in January).")
    private String yearName;

    MoneySettings settings(CommandLine command) {
        requireShare(command, machineShare == null ? 0 : machineShare, "--machine-share");
        requireShare(command, refreshShare, "--refresh-share");
        requireShare(command, warrantyShare, "--warranty-share");
        require(command, refreshAgeYears > 0 && refreshAgeYears <= MOST_YEARS, "--refresh-age lies above 0 and up to 50 years, not " + refreshAgeYears);
        require(command, vatPercent >= 0 && vatPercent <= 100, "--vat lies from 0 to 100, such as 19, not " + vatPercent);
        require(command, yearName == null || yearName.matches("[\\p{Alnum} /_.-]{0,12}\\{(end|end2)}[\\p{Alnum} /_.-]{0,12}|[\\p{Alnum} /_.-]{0,12}\\{(start|start2)}([\\p{Alnum} /_.-]{0,12}\\{(end|end2)})?[\\p{Alnum} /_.-]{0,12}"),
            "--year-name holds {end}, {end2}, {start} or {start2}, and few other letters, such as FY{end2}, not " + yearName);
        MoneySettings standard = MoneySettings.withDefaults();
        return new MoneySettings(machineShare == null ? standard.machineShare() : machineShare, machineShare == null ? RateSource.ASSUMED : RateSource.GIVEN, refreshShare, refreshAgeYears,
            warrantyShare, standard.urgentFailuresPerYear(), vatPercent, yearName);
    }

    private static void requireShare(CommandLine command, double share, String option) {
        require(command, share >= 0 && share <= 1, option + " lies from 0 to 1, such as 0.2 for one in five, not " + share);
    }
}
