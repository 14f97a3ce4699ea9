package org.wearledger.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.Placements;
import org.wearledger.history.RepairedDrives;
import org.wearledger.intake.QuestionedFields;
import org.wearledger.model.Accounting;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;

/**
 * What is found over all files and drives once the readings are joined: shared by all that sweeps and by a check.
 *
 * @param problems of reports, histories and side tables
 * @param machines the latest report of each, by folded id
 * @param fields to put a problem's heading beside it
 */
record FleetFindings(Inputs inputs, Inputs.Read read, JoinFindings joined, List<Problem> problems, Map<String, LatestReport> machines, Placements placements, RepairedDrives repaired,
                     ColumnChanges changes, QuestionedFields fields) {
    /** @param judgeAnew gives the problems of drives with reports whose column changed; asked only where one did */
    static FleetFindings of(Inputs inputs, JoinFindings joined, Function<ColumnChanges, List<Problem>> judgeAnew) {
        Inputs.Read read = inputs.read(joined.intake);
        QuestionedFields fields = new QuestionedFields(inputs.mappings(), read.files());
        ColumnChanges changes = ColumnChanges.of(joined.steps);
        List<Problem> problems = new ArrayList<>(read.problems());
        problems.addAll(fields.withHeadings(joined.problems));
        if (!changes.isEmpty()) {
            problems.addAll(fields.withHeadings(judgeAnew.apply(changes)));
        }
        problems.addAll(fields.withFormats(joined.dates.problems().values()));
        RepairedDrives repaired = RepairedDrives.of(inputs.tables().repairs(inputs.limits()), joined.stints);
        Placements placements = Placements.of(joined.stints, inputs.tables().drivesReplacedOn(inputs.limits()), repaired.ended());
        problems.addAll(MissingColumns.problems(problems, joined, placements, inputs.mappings().filesReadUnder(read.files())));
        problems.addAll(inputs.tables().problems());
        return new FleetFindings(inputs, read, joined, problems, LatestReport.ofPacked(joined.latestReports, inputs.limits()), placements, repaired, changes, fields);
    }

    /** With those of machines: drives that left them, and memory that the inventory gives otherwise. */
    List<Problem> withMachines() {
        List<Problem> all = new ArrayList<>(problems);
        all.addAll(placements.problems());
        all.addAll(LatestReport.memoryDifferences(machines, inputs.tables().inventory()));
        return all;
    }

    Accounting accounting() {
        return new Accounting(read.filesFound(), read.filesRead(), count(Effect.FILE_READ_IN_PART), count(Effect.FILE_REFUSED), read.records(), count(Effect.RECORD_REFUSED),
            read.readings(), joined.kept, joined.setAside, inputs.passedOver().size(), inputs.tables().names().size(), inputs.tables().rows(), inputs.tables().rowsRead(),
            count(Effect.ROW_REFUSED));
    }

    long count(Effect effect) {
        return Problem.count(problems, effect);
    }
}
