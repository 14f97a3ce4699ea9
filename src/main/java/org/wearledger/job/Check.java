package org.wearledger.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.intake.FileSplits;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.Mappings;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.ReportPart;
import org.wearledger.intake.ReportReader;
import org.wearledger.model.CheckResult;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;
import scala.Tuple2;

/**
 * Reads every report and side table, joins the readings to drive histories and says what is wrong: the problems of a sweep except
 * the ratings that its drives lack, without a sweep and without Spark.
 *
 * <p>Readings stay packed, some 200 bytes each, and are unpacked for one share of the drives at a time.
 */
public final class Check {
    /** Shares of the drives: the more of them, the fewer readings are unpacked at once. */
    private static final int SHARES = 64;

    /** What one part of a file gave. */
    private record Part(IntakeTally tally, List<Tuple2<Integer, ReadingBatch>> batches) {
        static Part read(ReportPart part, Mappings mappings) {
            IntakeTally.Counter counter = new IntakeTally.Counter();
            ReadingBatch.Sorter sorter = new ReadingBatch.Sorter(SHARES);
            try (ReportReader reader = new ReportReader(part, mappings.of(part.file().name()))) {
                reader.forEachRemaining(item -> {
                    counter.add(item);
                    item.outcome().values().forEach(sorter::add);
                });
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
            return new Part(counter.tally(), sorter.rest());
        }
    }

    private Check() {
    }

    /** @throws InputRefusedException when an input is not there or cannot serve as what it is named for */
    public static CheckResult run(SweepRequest request) throws IOException {
        return run(request, false);
    }

    /**
     * The same without the mappings of folders.
     *
     * @throws InputRefusedException when an input is not there or cannot serve as what it is named for
     */
    public static CheckResult underItsMappingAlone(SweepRequest request) throws IOException {
        return run(request, true);
    }

    private static CheckResult run(SweepRequest request, boolean underItsMappingAlone) throws IOException {
        try {
            Inputs inputs = Inputs.of(request, underItsMappingAlone);
            List<ReportPart> toRead = FileSplits.of(inputs.found().reports(), inputs.mappings(), toCount -> toCount.parallelStream().map(FileSplits::count).toList());
            List<Part> parts = toRead.parallelStream().map(part -> Part.read(part, inputs.mappings())).toList();
            List<FleetFigures> drives = new ArrayList<>();
            JoinFindings joined = joined(parts, request.limits(), outcome -> add(drives, outcome));
            parts.forEach(part -> joined.intake.add(part.tally));
            FleetFindings found = FleetFindings.of(inputs, joined, changes -> {
                drives.clear();
                List<Problem> problems = new ArrayList<>();
                joined(parts, request.limits(), outcome -> {
                    HistoryOutcome judged = changes.judged(outcome);
                    add(drives, judged);
                    problems.addAll(ColumnChanges.problems(judged));
                });
                return problems;
            });
            long inPacks = inputs.inPacks(PackFolder.Contents::readings);
            return new CheckResult(found.read().filesFound(), found.count(Effect.FILE_READ_IN_PART), found.count(Effect.FILE_REFUSED), found.read().records(), found.count(Effect.RECORD_REFUSED),
                found.read().readings() + inPacks, joined.kept, joined.setAside, inPacks, inputs.tables().rows(), inputs.tables().rowsRead(), found.count(Effect.ROW_REFUSED),
                inputs.passedOver(), inputs.mappingUses(), FleetFigures.glance(drives.stream().map(drive -> drive.explainedBy(joined.dates.problems())).toList(), found.fields(), found.read().filesFound()), found.withMachines());
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static JoinFindings joined(List<Part> parts, Limits limits, Consumer<HistoryOutcome> also) {
        return JoinFindings.added(IntStream.range(0, SHARES).mapToObj(share -> Joining.findings(parts.stream().flatMap(part -> part.batches.stream())
            .filter(batch -> batch._1() == share).map(Tuple2::_2).iterator(), limits, also)).toList());
    }

    private static void add(List<FleetFigures> drives, HistoryOutcome outcome) {
        Optional.ofNullable(FleetFigures.of(outcome)).ifPresent(drives::add);
    }
}
