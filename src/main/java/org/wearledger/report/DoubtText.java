package org.wearledger.report;

import java.math.BigDecimal;
import java.util.List;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Doubted;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** How much of a sweep rests on figures that contradict themselves. */
final class DoubtText {
    private final SweepResult result;
    private final Doubted doubted;
    private final List<DriveAssessment> drives;

    DoubtText(SweepResult result) {
        this.result = result;
        doubted = Doubted.of(result.problems());
        drives = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).toList();
    }

    /** Active drives in doubt. */
    long count() {
        return drives.stream().filter(drive -> doubted.has(drive.id())).count();
    }

    /** Active drives. */
    long drives() {
        return drives.size();
    }

    /** One sentence for all of them, without a final stop. */
    String sentence() {
        return "the figures of " + count() + " of " + Wording.count(drives.size(), "drive") + " contradict themselves, most often by a wrong unit in the mapping: settle that "
            + "before ordering" + (result.budget() == null ? "" : "; " + rest());
    }

    /** A drive that reports its own failing is replaced whatever its wear. */
    private String rest() {
        String quarter = result.budget().quarters().get(0).label();
        List<PlannedReplacement> lines = result.budget().lines().stream()
            .filter(line -> line.quarter().equals(quarter) && line.standing() != Standing.URGENT && doubted.has(line.drive())).toList();
        boolean priced = !result.budget().currency().isEmpty();
        return (lines.isEmpty() ? "none" : !priced ? String.valueOf(lines.size())
            : Wording.amount(lines.stream().map(PlannedReplacement::amount).reduce(BigDecimal.ZERO, BigDecimal::add), result.budget().currency()))
            + " of the named replacements of this quarter " + (lines.isEmpty() || lines.size() == 1 && !priced ? "rests" : "rest")
            + " on them, and some may be missing by the same error";
    }
}
