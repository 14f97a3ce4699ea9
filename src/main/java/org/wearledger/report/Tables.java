package org.wearledger.report;

import static org.wearledger.report.Column.*;
import static org.wearledger.report.MachineRow.ofDrive;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Stream;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Forecast;
import org.wearledger.model.Interval;
import org.wearledger.model.MemoryBand;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Spread;
import org.wearledger.model.SweepResult;

/** The tables of a sweep. The CSV names and their order are a contract with the users' own scripts. */
final class Tables {
    private static final double BYTES_PER_GIBIBYTE = 1L << 30;
    private static final double BYTES_PER_GIGABYTE = 1e9;

    private static final List<Column<MachineRow>> MACHINE_COLUMNS = List.of(
        text("machineId", "Machine", MachineRow::machineId),
        text("driveSerial", "Drive serial", ofDrive(drive -> drive.latest().drive().serial())),
        text("driveModel", "Drive model", ofDrive(drive -> drive.latest().drive().model())),
        instant("collectedAt", "Collected", ofDrive(drive -> drive.latest().collectedAt())),
        decimal("terabytesWritten", "Written", "TB", 3, ofDrive(drive -> drive.terabytesWritten())),
        decimal("ratedTerabytesWritten", "Rated", "TB written", 3,
            ofDrive(drive -> drive.wear().endurance() == null ? null : drive.wear().endurance().ratedTerabytesWritten())),
        longText("ratingSource", "Rating source", ofDrive(drive -> Wording.ratingSource(drive.wear().endurance()))),
        decimal("consumedPercent", "Consumed of rated", "%", 1, ofDrive(drive -> drive.wear().consumedPercent())),
        integer("percentageUsed", "Percentage used", "%",
            ofDrive(drive -> drive.percentageUsed())),
        decimal("gigabytesPerDay", "Write rate", "GB/day", 2, ofDrive(drive -> drive.pace().gigabytesPerDay())),
        date("projectedDate", "Reaches rating around", ofDrive(Tables::projectedDate)),
        text("standing", "Standing", row -> row.standing().label()),
        longText("reason", "Reason", MachineRow::reason),
        text("machineStanding", "Machine's standing", row -> row.assessment().standing().label()),
        text("assetTag", "Asset tag", row -> row.assessment().machine().assetTag()),
        text("site", "Site", row -> row.assessment().machine().site()),
        text("costCentre", "Cost centre", row -> row.assessment().machine().costCentre()),
        text("machineModel", "Machine model", row -> row.assessment().machine().model()),
        decimal("memoryGibibytes", "Memory", "GiB", 1,
            row -> quotient(row.assessment().machine().memoryBytes(), BYTES_PER_GIBIBYTE)),
        text("attachment", "Attachment", row -> row.attachment().label()),
        decimal("capacityGigabytes", "Capacity", "GB", 1,
            ofDrive(drive -> quotient(drive.latest().drive().capacityBytes(), BYTES_PER_GIGABYTE))),
        text("firmware", "Firmware", ofDrive(drive -> drive.latest().drive().firmware())),
        decimal("remainingTerabytes", "Remaining to rating", "TB", 3, ofDrive(drive -> drive.wear().remainingTerabytes())),
        decimal("impliedEnduranceLowTerabytes", "Implied endurance, low", "TB", 1,
            ofDrive(drive -> end(drive.wear().impliedEnduranceTerabytes(), Interval::low))),
        decimal("impliedEnduranceHighTerabytes", "Implied endurance, high", "TB", 1,
            ofDrive(drive -> end(drive.wear().impliedEnduranceTerabytes(), Interval::high))),
        decimal("gigabytesPerDayLately", "Write rate, last year", "GB/day", 2,
            ofDrive(drive -> drive.pace().gigabytesPerDayLately())),
        decimal("gigabytesPerDayOverLife", "Write rate, over life", "GB/day", 2,
            ofDrive(drive -> drive.pace().gigabytesPerDayOverLife())),
        decimal("driveWritesPerDay", "Drive writes per day", "", 4, ofDrive(drive -> drive.pace().driveWritesPerDay())),
        longText("projectionBasis", "Projection rests on", ofDrive(drive -> drive.outlook().projection().basis())),
        integer("readings", "Readings", "", ofDrive(drive -> drive.seen().readings())),
        integer("counterEpochs", "Counter epochs", "", ofDrive(drive -> drive.seen().epochs())),
        date("lastSeenOn", "Machine last seen", row -> Wording.day(row.assessment().lastSeenAt())),
        yesNo("reportedThisSweep", "Reported this sweep", row -> row.assessment().reportedThisSweep()),
        yesNo("inInventory", "In inventory", row -> row.assessment().inInventory()),
        longText("nextStep", "Next step", MachineRow::nextStep),
        date("projectedEarlyDate", "One chance in ten by", ofDrive(ofRating(Forecast::p10On))),
        date("projectedLateDate", "Nine chances in ten by", ofDrive(ofRating(Forecast::p90On))),
        longText("beyondEvidence", "Dates beyond evidence", ofDrive(Tables::beyondEvidence)),
        probability("reachesWithin1QuarterPercent", "Bytes reach rating within 1 quarter", ofRating(Forecast::within1Quarter)),
        probability("reachesWithin2QuartersPercent", "Bytes reach rating within 2 quarters", ofRating(Forecast::within2Quarters)),
        probability("reachesWithin4QuartersPercent", "Bytes reach rating within 4 quarters", ofRating(Forecast::within4Quarters)),
        probability("reachesWithin8QuartersPercent", "Bytes reach rating within 8 quarters", ofRating(Forecast::within8Quarters)),
        longText("forecastBasis", "Forecast rests on", ofDrive(ofRating(Forecast::basis))),
        date("controllerEarlyDate", "Controller reaches 100 %, one chance in ten by", ofDrive(ofController(Forecast::p10On))),
        date("controllerDate", "Controller reaches 100 % around", ofDrive(ofController(Forecast::p50On))),
        date("controllerLateDate", "Controller reaches 100 %, nine chances in ten by", ofDrive(ofController(Forecast::p90On))),
        probability("controllerWithin1QuarterPercent", "Controller reaches 100 % within 1 quarter", ofController(Forecast::within1Quarter)),
        probability("controllerWithin2QuartersPercent", "Controller reaches 100 % within 2 quarters", ofController(Forecast::within2Quarters)),
        probability("controllerWithin4QuartersPercent", "Controller reaches 100 % within 4 quarters", ofController(Forecast::within4Quarters)),
        probability("controllerWithin8QuartersPercent", "Controller reaches 100 % within 8 quarters", ofController(Forecast::within8Quarters)),
        date("straightLineDate", "Bytes reach rating on a straight line (baseline)", ofDrive(drive -> drive.outlook().projection().dateOrNull())));

    private Tables() {
    }

    static Table<MachineRow> machines(SweepResult result) {
        List<Column<MachineRow>> columns = new ArrayList<>(MACHINE_COLUMNS);
        columns.addAll(planColumns(result.plan().budget()));
        return new Table<>("Machines", columns, MachineRow.of(result.machines()))
            .sortedBy(MachineRow.BY_MACHINE);
    }

    /** The drive's line of the plan, where it has one, and whom that could be for. */
    private static List<Column<MachineRow>> planColumns(Budget budget) {
        Function<MachineRow, PlannedReplacement> line = new PlanLines(budget)::of;
        return List.of(
            date("replacementNeedOn", "Replacement needed by", of(line, PlannedReplacement::needOn)),
            text("replacementItem", "What is bought", of(line, PlannedReplacement::item)),
            text("replacementUpperItem", "Dearer choice", of(line, PlannedReplacement::upperItem)),
            text("ownership", "Own or customer's", row -> row.assessment().ownership().label()),
            text("user", "User", row -> row.assessment().machine().user()),
            date("refreshOn", "Another machine takes its place on", row -> row.assessment().machine().refreshOn()));
    }

    private static <R> Function<MachineRow, R> of(Function<MachineRow, PlannedReplacement> line, Function<PlannedReplacement, R> figure) {
        return row -> line.apply(row) == null ? null : figure.apply(line.apply(row));
    }

    static Table<ProblemWords> problems(List<ProblemWords> problems) {
        return new Table<>("Problems", List.of(
            text("rule", "Rule", words -> words.problem().kind().id()),
            text("effect", "Effect", words -> words.problem().kind().effect().label()),
            longText("file", "File", words -> words.problem().source().file()),
            text("place", "Place", words -> words.problem().source().place()),
            longText("subject", "Machine or drive", words -> words.problem().subject()),
            longText("found", "Found", ProblemWords::found),
            longText("expected", "Expected", ProblemWords::expected),
            longText("remedy", "Remedy", ProblemWords::remedy)), problems);
    }

    static Table<MemoryBand> memoryBands(SweepResult result) {
        List<Column<MemoryBand>> columns = new ArrayList<>();
        columns.add(text("memory", "Memory size", band -> memory(band.memoryGibibytes())));
        columns.add(integer("memoryGibibytes", "Memory", "GiB",
            band -> band.memoryGibibytes() == 0 ? null : band.memoryGibibytes()));
        columns.add(integer("machines", "Machines", "", MemoryBand::machines));
        columns.addAll(spread("gigabytesPerDay", "Write rate", "GB/day", 2, MemoryBand::gigabytesPerDay));
        columns.addAll(spread("swapUsedGibibytes", "Swap used", "GiB", 2, MemoryBand::swapUsedGibibytes));
        return new Table<>("Memory and writes", columns, result.fleet().memoryBands());
    }

    static <T> List<Column<T>> spread(String name, String heading, String unit, int places,
                                              Function<T, Spread> spread) {
        return Stream.<Column<T>>of(
            decimal(name + "LowerQuartile", heading + ", lower quartile", unit, places,
                row -> spread.apply(row).lowerQuartile()),
            decimal(name + "Median", heading + ", median", unit, places, row -> spread.apply(row).median()),
            decimal(name + "UpperQuartile", heading + ", upper quartile", unit, places,
                row -> spread.apply(row).upperQuartile())).toList();
    }

    private static String memory(int gibibytes) {
        return gibibytes == 0 ? "not reported" : gibibytes + " GiB";
    }

    private static Column<MachineRow> probability(String name, String heading, Function<DriveAssessment, Double> probability) {
        return decimal(name, heading, "%", 1, ofDrive(drive -> {
            Double p = probability.apply(drive);
            return p == null ? null : (Double) (100 * p);
        }));
    }

    private static <R> Function<DriveAssessment, R> ofRating(Function<Forecast, R> figure) {
        return drive -> drive.outlook().ratingForecast() == null ? null : figure.apply(drive.outlook().ratingForecast());
    }

    private static <R> Function<DriveAssessment, R> ofController(Function<Forecast, R> figure) {
        return drive -> drive.outlook().controllerForecast() == null ? null : figure.apply(drive.outlook().controllerForecast());
    }

    /** The median of the forecast; by the method of the straight line, its date. */
    private static LocalDate projectedDate(DriveAssessment drive) {
        return drive.outlook().ratingForecast() == null ? drive.outlook().projection().dateOrNull() : drive.outlook().ratingForecast().p50On();
    }

    private static String beyondEvidence(DriveAssessment drive) {
        return Stream.of(beyondEvidence("rating", drive.outlook().ratingForecast()), beyondEvidence("controller", drive.outlook().controllerForecast()))
            .filter(Objects::nonNull).reduce((a, b) -> a + "; " + b).map(dates -> "beyond evidence: " + dates).orElse(null);
    }

    private static String beyondEvidence(String threshold, Forecast forecast) {
        if (forecast == null) {
            return null;
        }
        List<String> dates = new ArrayList<>();
        add(dates, "one in ten", forecast.isBeyondEvidence(forecast.p10On()));
        add(dates, "the middle", forecast.isBeyondEvidence(forecast.p50On()));
        add(dates, "nine in ten", forecast.isBeyondEvidence(forecast.p90On()));
        return dates.isEmpty() ? null : threshold + ", " + String.join(", ", dates);
    }

    private static void add(List<String> words, String word, boolean fits) {
        if (fits) {
            words.add(word);
        }
    }

    private static Double quotient(Long bytes, double bytesPerUnit) {
        return bytes == null ? null : (Double) (bytes / bytesPerUnit);
    }

    private static Double end(Interval interval, Function<Interval, Double> end) {
        return interval == null ? null : end.apply(interval);
    }

    static String camelCase(String label) {
        int space = label.indexOf(' ');
        return space < 0 ? label : label.substring(0, space) + Wording.sentenceCase(label.substring(space + 1));
    }
}
