package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.Calibration;
import org.wearledger.model.Calibration.Check;

/** The one line that says which of a sweep's forecasts held on the fleet's own past. */
final class SelfCheckText {
    private SelfCheckText() {
    }

    /** @param seenOnce machines of which there is but one reading of a drive */
    static String of(Calibration past, long seenOnce) {
        List<Check> told = past.checks().stream().filter(Check::isTold).toList();
        List<String> sentences = new ArrayList<>();
        if (told.isEmpty()) {
            int sweeps = past.checks().stream().mapToInt(check -> check.origins().size()).max().orElse(0);
            sentences.add("Calibration is not established yet: " + Wording.count(sweeps, "past sweep") + " to forecast from, at least "
                + BacktestReport.LEAST_ORIGINS + " are needed. Take dates and probabilities as provisional.");
        } else {
            sentences.add("Self-check on this fleet's own past, where 90 of 100 ranges should hold: "
                + told.stream().map(check -> name(check) + " " + share(check)).collect(Collectors.joining("; ")) + ".");
            verdict(sentences, "These hold: ", told, check -> check.holds() && !check.isWide());
            verdict(sentences, "These are wider than need be: ", told, check -> check.holds() && check.isWide());
            verdict(sentences, "These are too narrow, so allow for more: ", told, check -> !check.holds());
            verdict(sentences, "These cannot be checked yet: ", past.checks(), check -> !check.isTold());
            if (told.stream().anyMatch(check -> !check.isEstablished())) {
                sentences.add("Shares from fewer than " + BacktestReport.LEAST_ORIGINS + " past sweeps are an early sign only: calibration is not established yet.");
            }
        }
        if (seenOnce > 0) {
            sentences.add(seenOnce == 1 ? "1 machine has a drive that was seen only once, and cannot be checked."
                : String.format(Locale.ROOT, "%,d machines have a drive that was seen only once, and cannot be checked.", seenOnce));
        }
        return String.join(" ", sentences);
    }

    private static void verdict(List<String> sentences, String words, List<Check> checks, Predicate<Check> which) {
        String names = checks.stream().filter(which).map(SelfCheckText::name).collect(Collectors.joining(", "));
        if (!names.isEmpty()) {
            sentences.add(words + names + ".");
        }
    }

    private static String name(Check check) {
        return (check.measure() == Calibration.Measure.WRITES ? "writes " : "the controller's percentage ") + Wording.count(check.quarters(), "quarter") + " ahead";
    }

    private static String share(Check check) {
        String least = check.leastShare().isPresent() && check.leastShare().getAsDouble() < check.share()
            ? String.format(Locale.ROOT, ", at worst %.0f %%", 100 * check.leastShare().getAsDouble()) : "";
        return String.format(Locale.ROOT, "%.0f %% (of %,d, from %s%s)", 100 * check.share(), check.ranges(), Wording.count(check.origins().size(), "sweep"), least);
    }
}
