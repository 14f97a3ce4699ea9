package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** How much of a sweep and its plan rests on figures in doubt. */
final class InDoubtSentence {
    private final Budget budget;
    private final DrivesToCheck drivesToCheck;
    private final List<DriveAssessment> drives;
    private final Set<DriveId> inDoubt;
    /** Drives without an assessment, since no report of them could be believed. */
    private final long unbelieved;

    InDoubtSentence(SweepResult result) {
        budget = result.plan().budget();
        drivesToCheck = DrivesToCheck.of(result.problems());
        drives = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
        inDoubt = drives.stream().filter(drivesToCheck::contains).map(DriveAssessment::id).collect(Collectors.toSet());
        unbelieved = result.problems().stream().filter(problem -> problem.kind() == ProblemKind.NO_REPORT_BELIEVED).count();
    }

    /** Active drives in doubt, and those of which no report could be believed. */
    long count() {
        return inDoubt.size() + unbelieved;
    }

    /** Active drives, and those of which no report could be believed. */
    long drives() {
        return drives.size() + unbelieved;
    }

    /** One sentence for all of them, without a final stop. */
    String sentence() {
        List<String> reasons = new ArrayList<>();
        if (drives.stream().anyMatch(drivesToCheck::isContradicted)) {
            reasons.add("the figures contradict themselves");
        }
        if (drives.stream().anyMatch(drive -> drivesToCheck.isOutdated(drive) && !drivesToCheck.isContradicted(drive))) {
            reasons.add("the latest report could not be believed");
        }
        if (unbelieved > 0) {
            reasons.add("no report could be believed");
        }
        return "of " + count() + " of " + Wording.count(drives(), "drive") + " " + String.join(", or ", reasons)
            + ", most often by a wrong unit in the export or its mapping: settle that before ordering" + (budget == null ? "" : "; " + rest());
    }

    /** A drive that reports its own failing is replaced whatever its wear. */
    private String rest() {
        String quarter = budget.quarters().get(0).label();
        List<PlannedReplacement> lines = budget.lines().stream()
            .filter(line -> line.quarter().equals(quarter) && line.standing() != Standing.URGENT && inDoubt.contains(line.drive())).toList();
        return (lines.isEmpty() ? "none" : lines.size() + money(lines)) + " of this quarter's purchases "
            + (lines.size() < 2 ? "rests" : "rest") + " on them, and some may be missing by the same error";
    }

    private String money(List<PlannedReplacement> lines) {
        long unpriced = lines.stream().filter(line -> line.price() == null).count();
        return budget.currency().isEmpty() ? "" : unpriced == lines.size() ? " (without a price)"
            : " (" + Wording.amount(BudgetTables.sumOf(lines.stream()), budget.currency()) + (unpriced == 0 ? ")" : " and " + unpriced + " without a price)");
    }
}
