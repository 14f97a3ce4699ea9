package org.wearledger.job;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.history.ColumnChanges;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.history.Placements;
import org.wearledger.intake.FieldMapping;
import org.wearledger.intake.FileSplits;
import org.wearledger.intake.FileSummary;
import org.wearledger.intake.FoundFiles;
import org.wearledger.intake.InputMissingException;
import org.wearledger.intake.PackFolder;
import org.wearledger.intake.QuestionedFields;
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
    private record Part(IntakeTally tally, List<Tuple2<Integer, Parcel>> parcels) {
        static Part read(ReportPart part, FieldMapping mapping) {
            IntakeTally.Counter counter = new IntakeTally.Counter();
            Parcel.Sorter sorter = new Parcel.Sorter(SHARES);
            try (ReportReader reader = new ReportReader(part, mapping)) {
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
        try {
            FoundFiles found = FoundFiles.find(request.reports());
            SideTableSet tables = SideTableSet.load(request, found);
            FieldMapping mapping = request.fieldMapping();
            List<ReportPart> toRead = FileSplits.of(found.reports(), toCount -> toCount.parallelStream().map(FileSplits::count).toList());
            List<Part> parts = toRead.parallelStream().map(part -> Part.read(part, mapping)).toList();
            List<IntakeTally> tallies = parts.stream().map(Part::tally).toList();
            List<Problem> problems = new ArrayList<>(tables.problems());
            tallies.forEach(tally -> problems.addAll(tally.problems()));
            Collection<FileSummary> files = FileSummary.added(tallies.stream().flatMap(tally -> tally.files().stream()).toList()).values();
            files.forEach(file -> problems.addAll(file.problems(mapping)));
            List<PackFolder> packs = Packs.load(found, request.pseudonyms());
            List<String> passedOver = new ArrayList<>(found.passedOver());
            packs.forEach(pack -> {
                problems.addAll(pack.problems());
                passedOver.addAll(pack.contents().passedOver());
            });
            List<FleetFigures> drives = new ArrayList<>();
            JoinTally joined = joined(parts, request.limits(), outcome -> add(drives, outcome));
            QuestionedFields fields = new QuestionedFields(mapping, files);
            problems.addAll(fields.withHeadings(joined.problems()));
            ColumnChanges changes = ColumnChanges.of(joined.steps());
            if (!changes.isEmpty()) {
                drives.clear();
                joined(parts, request.limits(), outcome -> {
                    HistoryOutcome judged = changes.judged(outcome);
                    add(drives, judged);
                    problems.addAll(fields.withHeadings(ColumnChanges.problems(judged)));
                });
            }
            Placements placements = Placements.of(joined.stints(), tables.drivesReplacedOn(request.limits()));
            problems.addAll(placements.problems());
            problems.addAll(MissingColumns.problems(problems, joined, placements, mapping.filesReadUnder(files)));
            problems.addAll(Sighting.memoryDifferences(Sighting.ofPacked(joined.sightings(), request.limits()), tables.inventory()));
            long inPacks = Packs.inPacks(packs, PackFolder.Contents::readings);
            return new CheckResult(found.reports().size() + Packs.inPacks(packs, PackFolder.Contents::filesFound),
                Problem.count(problems, Effect.FILE_READ_IN_PART), Problem.count(problems, Effect.FILE_REFUSED),
                tallies.stream().mapToLong(IntakeTally::records).sum() + Packs.inPacks(packs, PackFolder.Contents::records),
                Problem.count(problems, Effect.RECORD_REFUSED), tallies.stream().mapToLong(IntakeTally::readings).sum() + inPacks,
                joined.kept(), joined.setAside(), inPacks, tables.rows(), tables.rowsRead(),
                Problem.count(problems, Effect.ROW_REFUSED), request.pseudonyms().files(passedOver.stream().sorted().toList()),
                FleetFigures.glance(drives, fields, found.reports().size() + Packs.inPacks(packs, PackFolder.Contents::filesFound)), problems);
        } catch (InputMissingException e) {
            throw new InputRefusedException(e.getMessage(), e);
        }
    }

    private static JoinTally joined(List<Part> parts, Limits limits, Consumer<HistoryOutcome> also) {
        return JoinTally.added(IntStream.range(0, SHARES).mapToObj(share -> DriveJoin.tally(parts.stream().flatMap(part -> part.parcels.stream())
            .filter(parcel -> parcel._1() == share).map(Tuple2::_2).iterator(), limits, also)).collect(Collectors.toList()));
    }

    private static void add(List<FleetFigures> drives, HistoryOutcome outcome) {
        Optional.ofNullable(FleetFigures.of(outcome)).ifPresent(drives::add);
    }
}
