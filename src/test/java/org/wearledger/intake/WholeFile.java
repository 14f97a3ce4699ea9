package org.wearledger.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.Outcome;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/** A report file read into memory. */
public final class WholeFile {
    private WholeFile() {
    }

    /** For a file whose fields stand under their own names. */
    public static ReportReader reader(ReportFile file) {
        return new ReportReader(ReportPart.whole(file), FieldMapping.none());
    }

    /** All its readings and problems, what is to be said of the file last. */
    public static Outcome<Reading> read(ReportFile file, FieldMapping mapping) throws IOException {
        List<Reading> readings = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        try (ReportReader reader = new ReportReader(ReportPart.whole(file), mapping)) {
            while (reader.hasNext()) {
                ReportReader.Item item = reader.next();
                readings.addAll(item.outcome().values());
                problems.addAll(item.summary() == null ? item.outcome().problems() : item.summary().problems(mapping));
            }
        }
        return new Outcome<>(readings, problems);
    }
}
