package org.wearledger.job;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;

/**
 * What a task that read files has to tell.
 *
 * @param problems of single records: of each rule, file and machine the first {@link Problem#MOST_LISTED}, the others by their number
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
        /** Whose problems are counted together: so that a machine's refused records are known however many others there are. */
        private record Group(ProblemKind kind, String file, String subject) {
        }

        private final List<Problem> problems = new ArrayList<>();
        private final Map<Group, Long> counts = new HashMap<>();
        private final List<FileSummary> files = new ArrayList<>();
        private long records;
        private long readings;
        private final Map<String, Long> packed = new TreeMap<>();

        void add(ReportReader.Item item) {
            item.outcome().problems().forEach(this::count);
            if (item.summary() != null) {
                files.add(item.summary());
            } else {
                records++;
            }
            readings += item.outcome().values().size();
        }

        private void count(Problem problem) {
            Group group = new Group(problem.kind(), problem.source().file(), problem.subject());
            if (counts.merge(group, 1L, Long::sum) <= Problem.MOST_LISTED) {
                problems.add(problem);
            }
        }

        /** A reading of a pack; what else there is to tell of it stands in the pack. */
        void addPacked(String pack) {
            records++;
            readings++;
            packed.merge(pack, 1L, Long::sum);
        }

        IntakeTally tally() {
            List<Problem> all = new ArrayList<>(problems);
            counts.forEach((group, count) -> {
                if (count > Problem.MOST_LISTED) {
                    all.add(Problem.more(group.kind, group.file, group.subject, count - Problem.MOST_LISTED));
                }
            });
            return new IntakeTally(all, files, records, readings, packed);
        }
    }
}
