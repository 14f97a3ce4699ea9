package org.wearledger.cli;

import static org.wearledger.cli.OptionBounds.require;

import java.time.LocalDate;
import org.wearledger.model.Ownership;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.SweepSettings;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** What a machine's standing is judged by: the same for a sweep and for the page of one of its machines. */
final class JudgingOptions {
    @Option(names = "--as-of", paramLabel = "DATE", converter = LabelConverters.ForDate.class,
        description = "The date to judge by, such as 2025-01-06; later reports are set aside (default: the latest report's date, UTC).")
    private LocalDate asOf;

    @Option(names = "--lead-time-days", defaultValue = "30", paramLabel = "DAYS",
        description = "From order to delivery (default: ${DEFAULT-VALUE}).")
    private int leadTimeDays;

    @Option(names = "--recent-days", defaultValue = "45", paramLabel = "DAYS",
        description = "A machine with no report in this many days before the as-of date is \"not reported\" (default: ${DEFAULT-VALUE}).")
    private int recentDays;

    @Option(names = "--due-probability", defaultValue = "0.5", paramLabel = "P",
        description = "Mark \"due\" when the chance of reaching the limit before a replacement could arrive is at least this; that is within lead time and one quarter (default: ${DEFAULT-VALUE}).")
    private double dueProbability;

    @Option(names = "--watch-probability", defaultValue = "0.1", paramLabel = "P",
        description = "Mark \"watch\" when the chance of reaching the limit within four quarters is at least this (default: ${DEFAULT-VALUE}).")
    private double watchProbability;

    @Option(names = "--method", defaultValue = "pooled", paramLabel = "METHOD",
        description = "pooled: due and watch by probabilities from the whole fleet's past; straight-line: by the date of a "
            + "straight line, without an uncertainty (default: ${DEFAULT-VALUE}).", converter = LabelConverters.ForMethod.class)
    private ProjectionMethod method;

    @Option(names = "--ownership", defaultValue = "own", paramLabel = "WHOSE", converter = LabelConverters.ForOwnership.class,
        description = "Whose the machines are where the inventory does not say: own, or customers. A customer's machine is judged and compared, "
            + "but not planned for or missed (default: ${DEFAULT-VALUE}).")
    private Ownership ownership;

    /** @throws CommandLine.ParameterException when a value lies outside its bounds */
    SweepSettings settings(CommandLine command) {
        require(command, dueProbability > 0 && dueProbability <= 1 && watchProbability > 0 && watchProbability <= 1,
            "--due-probability and --watch-probability lie above 0, up to 1, not " + dueProbability + " and " + watchProbability);
        require(command, leadTimeDays >= 0 && recentDays >= 0, "--lead-time-days and --recent-days take 0 or more, not " + leadTimeDays + " and " + recentDays);
        return new SweepSettings(asOf, leadTimeDays, recentDays, method, dueProbability, watchProbability, ownership);
    }
}
