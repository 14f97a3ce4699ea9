package org.wearledger.job;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.Problem;

/**
 * What a task that read files has to tell.
 *
 * @param problems of single records
 * @param files what is to be said of each file, or of the part that was read
 * @param records found, each of which gave one reading or one problem that refuses it
 * @param packed by pack, the readings that came from it, counted among the others
 */
record IntakeTally(List<Problem> problems, List<FileSummary> files, long records, long readings, Map<String, Long> packed)
    implements Serializable {

    /** Records of report files, which packs have counted for themselves. */
    long recordsOfFiles() {
        return records - packed.values().stream().mapToLong(Long::longValue).sum();
    }

    /** Counts record by record, apart from the file's own count. */
    static final class Counter {
        private final List<Problem> problems = new ArrayList<>();
        private final List<FileSummary> files = new ArrayList<>();
        private long records;
        private long readings;
        private final Map<String, Long> packed = new TreeMap<>();

        void add(ReportReader.Item item) {
            problems.addAll(item.outcome().problems());
            if (item.summary() != null) {
                files.add(item.summary());
            } else {
                records++;
            }
            readings += item.outcome().values().size();
        }

        /** A reading of a pack; what else there is to tell of it stands in the pack. */
        void addPacked(String pack) {
            records++;
            readings++;
            packed.merge(pack, 1L, Long::sum);
        }

        IntakeTally tally() {
            return new IntakeTally(problems, files, records, readings, packed);
        }
    }
}
