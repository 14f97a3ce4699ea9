package org.wearledger.assess;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.BinaryOperator;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Failures;
import org.wearledger.model.Failures.Basis;
import org.wearledger.model.Failures.Cause;
import org.wearledger.model.Interval;
import org.wearledger.model.Rating;
import org.wearledger.model.Repair;
import org.wearledger.model.SeenDrive;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.EventRates;
import org.wearledger.stats.EventRates.Exposure;

/**
 * What an owner's own records tell of failures. A drive is under observation from its first report, or from the first day of the repairs where that is
 * later, until it fails or is last known to be in use. A failure on its first day counts for nothing: nobody knows how many others did not come in.
 */
public final class FailureRecords {
    private static final double DAYS_PER_YEAR = 365.25;
    private static final double CONFIDENCE = 0.95;

    private final LocalDate from;
    private final LocalDate until;
    private final Map<Repair, DriveId> driveOf;
    private final Map<DriveId, DriveAssessment> assessments;

    /**
     * @param from first day that repairs are known of, {@code until} the last
     * @param driveOf the drives of the repairs of which it is known
     * @param assessments of those drives at their last report
     */
    public FailureRecords(LocalDate from, LocalDate until, Map<Repair, DriveId> driveOf, Map<DriveId, DriveAssessment> assessments) {
        this.from = from;
        this.until = until;
        this.driveOf = Map.copyOf(driveOf);
        this.assessments = Map.copyOf(assessments);
    }

    /** One drive under observation; {@code cause} is {@code null} where it was last seen unharmed. */
    record Observed(SeenDrive drive, LocalDate entry, LocalDate exit, Cause cause) {
        double years() {
            return ChronoUnit.DAYS.between(entry, exit) / DAYS_PER_YEAR;
        }
    }

    /**
     * Rates by drive model and their mean over the machines, and the share that failed by age.
     *
     * @param seen every drive
     * @param recentDays a drive is in use until the last day when its last report is at most so old
     * @param ratings some of which may tell the number in the field: then the rates are of those models, for that number
     * @param inUse drives in use now, machine by machine
     */
    public Failures of(Collection<SeenDrive> seen, int recentDays, Collection<Rating> ratings, Collection<List<DriveId>> inUse) {
        Map<String, Long> inField = ratings.stream().filter(rating -> rating.inField() != null)
            .collect(Collectors.groupingBy(rating -> DriveId.fold(rating.driveModel()), TreeMap::new, Collectors.summingLong(Rating::inField)));
        if (inField.isEmpty() && !areFollowed(seen, recentDays)) {
            return Failures.none(Basis.NOT_FOLLOWED);
        }
        List<Observed> observed = observed(seen, recentDays);
        Map<String, Exposure> exposures = inField.isEmpty() ? followed(observed) : inField(inField);
        List<Failures.Incidence> incidences = inField.isEmpty() ? FailureAges.incidences(observed) : List.of();
        int failures = exposures.values().stream().mapToInt(Exposure::events).sum();
        if (failures < Failures.LEAST) {
            return new Failures(Basis.TOO_FEW, failures, 0, Double.NaN, List.of(), incidences);
        }
        EventRates rates = EventRates.of(List.copyOf(exposures.values()));
        double years = exposures.values().stream().mapToDouble(Exposure::time).sum();
        return new Failures(inField.isEmpty() ? Basis.FOLLOWED : Basis.IN_FIELD, failures, years, perMachine(inUse, exposures, rates), ofModels(exposures, rates), incidences);
    }

    /** At least half of the drives that came in for nothing, and reported since the repairs began, still report. */
    private boolean areFollowed(Collection<SeenDrive> seen, int recentDays) {
        Set<DriveId> repaired = Set.copyOf(driveOf.values());
        List<SeenDrive> unharmed = seen.stream().filter(drive -> !repaired.contains(drive.drive()) && !drive.last().isBefore(from)).toList();
        long recent = unharmed.stream().filter(drive -> !drive.last().plusDays(recentDays).isBefore(until)).count();
        return !unharmed.isEmpty() && 2 * recent >= unharmed.size();
    }

    private static List<Failures.OfModel> ofModels(Map<String, Exposure> exposures, EventRates rates) {
        List<Failures.OfModel> models = new ArrayList<>();
        exposures.forEach((model, exposure) -> {
            Bounds bounds = rates.bounds(exposure, CONFIDENCE);
            models.add(new Failures.OfModel(model, rates.rate(exposure), new Interval(bounds.low(), bounds.high())));
        });
        return models;
    }

    /** The mean over machines of the sum of their drives' rates; a model that was never observed has the mean rate. */
    private static double perMachine(Collection<List<DriveId>> inUse, Map<String, Exposure> exposures, EventRates rates) {
        ToDoubleFunction<DriveId> rate = drive -> exposures.containsKey(drive.model()) ? rates.rate(exposures.get(drive.model())) : rates.mean();
        return inUse.stream().filter(drives -> !drives.isEmpty()).mapToDouble(drives -> drives.stream().mapToDouble(rate).sum()).average().orElse(rates.mean());
    }

    private List<Observed> observed(Collection<SeenDrive> seen, int recentDays) {
        Map<DriveId, Repair> firstRepair = new HashMap<>();
        driveOf.forEach((repair, drive) -> firstRepair.merge(drive, repair, BinaryOperator.minBy(Comparator.comparing(Repair::date).thenComparing(Repair::reason))));
        List<Observed> observed = new ArrayList<>();
        for (SeenDrive drive : seen) {
            LocalDate entry = drive.first().isBefore(from) ? from : drive.first();
            Repair repair = firstRepair.get(drive.drive());
            LocalDate lastInUse = drive.last().plusDays(recentDays).isBefore(until) ? drive.last() : until;
            LocalDate exit = repair != null ? repair.date() : lastInUse;
            if (exit.isAfter(entry)) {
                observed.add(new Observed(drive, entry, exit, repair == null ? null : cause(repair)));
            }
        }
        return observed;
    }

    /** {@code null} for a machine that left unharmed. */
    private Cause cause(Repair repair) {
        return switch (repair.reason()) {
            case WORN -> Cause.WORN;
            case DEAD_DRIVE -> isWorn(repair) ? Cause.WORN : Cause.DEAD_NOT_WORN;
            case SUPPLY_CIRCUIT -> Cause.SUPPLY_CIRCUIT;
            case OTHER_FAULT -> Cause.OTHER_FAULT;
            case WITHDRAWN, SOLD -> null;
        };
    }

    private boolean isWorn(Repair repair) {
        DriveAssessment drive = assessments.get(driveOf.get(repair));
        Double percent = drive == null ? null : DeadDriveWear.percentOn(drive, repair.date());
        return percent != null && percent >= DeadDriveWear.FULL_PERCENT;
    }

    private static Map<String, Exposure> followed(List<Observed> observed) {
        Map<String, Exposure> exposures = new TreeMap<>();
        observed.forEach(drive -> exposures.merge(drive.drive.drive().model(), new Exposure(drive.cause == Cause.DEAD_NOT_WORN ? 1 : 0, drive.years()),
            (one, other) -> new Exposure(one.events() + other.events(), one.time() + other.time())));
        return exposures;
    }

    /** Of a model's drives in the field each counts from the first day to the last. A dead drive whose model no report tells is missing. */
    private Map<String, Exposure> inField(Map<String, Long> inField) {
        double years = (ChronoUnit.DAYS.between(from, until) + 1) / DAYS_PER_YEAR;
        Map<String, Exposure> exposures = new TreeMap<>();
        inField.forEach((model, drives) -> exposures.put(model, new Exposure((int) driveOf.entrySet().stream()
            .filter(repair -> repair.getValue().model().equals(model) && repair.getKey().reason() == Repair.Reason.DEAD_DRIVE && !isWorn(repair.getKey()))
            .map(Map.Entry::getValue).distinct().count(), drives * years)));
        return exposures;
    }
}
