package org.wearledger.cli;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.wearledger.job.SweepRequest;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.SweepSettings;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The reports and what is known beside them: the same for every command that reads reports. */
final class InputOptions {
    static final String PSEUDONYMISE = "--pseudonymise";

    @Spec(Spec.Target.MIXEE)
    private CommandSpec mixee;

    @Parameters(arity = "1..*", paramLabel = "REPORTS",
        description = "Folders (searched through), files or patterns; files end in json, jsonl, ndjson or csv, each also gzipped (gz). "
            + "ratings.csv, inventory.csv, prices.csv, repairs.csv and decisions.csv at the top of a folder are used as side tables.")
    private List<String> reports;

    @Option(names = "--mapping", paramLabel = "FILE", description = "How the reports name their fields, where that is not as in the report form "
        + "(JSON, see notebooks-free-docs/mapping.md).")
    private String mapping;

    @Option(names = "--ratings", paramLabel = "FILE", description = "Rated endurance by drive model and capacity (CSV).")
    private String ratings;

    @Option(names = "--inventory", paramLabel = "FILE", description = "The machines that should report (CSV).")
    private String inventory;

    @Option(names = "--prices", paramLabel = "FILE", description = "Prices for the budget (CSV).")
    private String prices;

    @Option(names = "--repairs", paramLabel = "FILE", description = "What came in for repair, or left, and why (CSV).")
    private String repairs;

    @Option(names = "--decisions", paramLabel = "FILE", description = "What was ordered, delivered, claimed, accepted, deferred or rejected since (CSV).")
    private String decisions;

    @Option(names = PSEUDONYMISE, paramLabel = "KEYFILE",
        description = "Replace names of machines, drives and files with pseudonyms made from this key: a file of 16 bytes or more. Keep it secret, and use the same one next quarter.")
    private Path pseudonymKey;

    List<String> reports() {
        return reports;
    }

    /** With nothing to compare with. */
    SweepRequest request(SweepSettings settings) {
        return request(settings, BudgetSettings.withDefaults(), null, null);
    }

    SweepRequest request(SweepSettings settings, BudgetSettings budget, String earlier, LocalDate compareWith) {
        byte[] key = pseudonymKey == null ? null : PseudonymKey.read(pseudonymKey, mixee.commandLine());
        return new SweepRequest(reports, sideTables(), mapping, key, settings, budget, earlier, compareWith, Instant.now(), Version.text());
    }

    private Map<String, String> sideTables() {
        Map<String, String> named = new HashMap<>();
        named.put("ratings", ratings);
        named.put("inventory", inventory);
        named.put("prices", prices);
        named.put("repairs", repairs);
        named.put("decisions", decisions);
        named.values().removeIf(Objects::isNull);
        return named;
    }
}
