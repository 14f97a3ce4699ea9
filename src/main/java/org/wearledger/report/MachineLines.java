package org.wearledger.report;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.PlannedReplacement;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** What the summary says of one machine and drive, by its standing. */
final class MachineLines {
    private static final String LAST_REPORT = "last report is ";

    private final SweepResult result;
    private final PlanLines plan;
    private final Set<DriveId> claims;
    private final DrivesToCheck drivesToCheck;

    MachineLines(SweepResult result) {
        this.result = result;
        plan = new PlanLines(result.plan().budget());
        claims = result.plan().warranties().stream().filter(check -> check.finding().isToBeAsked())
            .map(check -> check.drive().id()).collect(Collectors.toSet());
        drivesToCheck = DrivesToCheck.of(result.problems());
    }

    /** With what the plan has for it. */
    String of(MachineRow row) {
        return switch (row.standing()) {
            case URGENT -> dated(row, urgentEntry(row)) + order(row);
            case PAST_RATING -> dated(row, pastEntry(row)) + check(row) + order(row);
            case DUE, WATCH -> dated(row, projectedEntry(row)) + check(row) + order(row);
            case WITHIN_RATING, NO_VERDICT -> (row.drive() == null ? place(row.assessment()) : driveAt(row)) + ": " + row.reason()
                + (row.assessment().driveNowIn() == null ? "" : "; " + row.assessment().ifRenamed());
        };
    }

    /** Says that the report is old where it is; the reason of a machine does already. */
    private String dated(MachineRow row, String entry) {
        MachineAssessment machine = row.assessment();
        return machine.reportedThisSweep() || machine.lastSeenAt() == null || entry.contains(LAST_REPORT) ? entry
            : entry + "; " + LAST_REPORT + Wording.count(ChronoUnit.DAYS.between(Wording.day(machine.lastSeenAt()), result.asOf()), "day") + " old";
    }

    /** What comes before the order where the figures contradict themselves. */
    private String check(MachineRow row) {
        String first = first(row);
        if (first == null) {
            return "";
        }
        String disagree = row.drive().measuresDisagree() ? measures(row.drive()) : "";
        String inDoubt = drivesToCheck.contains(row.drive()) ? "; IN DOUBT, " + SweepWriter.MACHINES_CSV + " says why" : "";
        return disagree + inDoubt + "; " + first;
    }

    private String first(MachineRow row) {
        return row.drive() == null ? null : drivesToCheck.checkFirst(row.drive());
    }

    /** What the plan has for the drive, and when it is to be ordered. */
    private String order(MachineRow row) {
        PlannedReplacement line = plan.of(row);
        if (line == null) {
            return "";
        }
        String claim = claims.contains(line.drive()) ? "ask the maker first; if it declines, " : "";
        String when = line.late() ? "order at once: " : "order by " + line.orderByOn() + ", needed by " + line.needOn() + ": ";
        String price = line.price() == null ? "no price" : Wording.amount(line.amount(), result.plan().budget().currency());
        return (first(row) == null ? "; " : ", then ") + claim + when + line.item() + ", " + price;
    }

    private static String urgentEntry(MachineRow row) {
        if (row.drive() == null) {
            return place(row.assessment()) + ": " + row.reason();
        }
        String used = row.reason().contains("the controller itself reports") ? "" : "; " + percentageUsed(row.drive());
        return driveAt(row) + ": " + row.reason() + used + source(row);
    }

    private static String pastEntry(MachineRow row) {
        return row.drive() == null ? place(row.assessment()) + ": " + row.reason()
            : driveAt(row) + ": " + writtenOfRated(row.drive()) + ", " + percentageUsed(row.drive());
    }

    private String projectedEntry(MachineRow row) {
        if (row.drive() == null) {
            return place(row.assessment()) + ": " + row.reason();
        }
        DriveAssessment drive = row.drive();
        if (drive.outlook().ratingForecast() != null || drive.outlook().controllerForecast() != null) {
            return driveAt(row) + ": " + dates(drive, result.asOf()) + "; " + writtenOfRated(drive);
        }
        if (drive.outlook().projection() instanceof Projection.Reaches reaches) {
            boolean isPassed = Forecast.isPassed(reaches.date(), result.asOf());
            return driveAt(row) + ": " + (isPassed ? "has probably passed its rating already, about " : "reaches its rating about ")
                + Forecast.dateInWords(reaches.date(), result.asOf()) + (reaches.beyondEvidence() ? " (beyond evidence)" : "") + "; " + writtenOfRated(drive);
        }
        return driveAt(row) + ": " + row.reason() + source(row);
    }

    /** The reason has the figures; an assumed rating it names itself. */
    private static String source(MachineRow row) {
        Endurance endurance = row.drive().wear().endurance();
        return endurance == null || endurance.assumed() ? "" : "; rating: " + endurance.source();
    }

    /** Example: {@code its rating is reached around 2025-09-12 (8 in 10: 2025-06-28 to 2025-12-15)}; the tables have the chances. */
    static String dates(DriveAssessment drive, LocalDate asOf) {
        Forecast forecast = deciding(drive);
        boolean isPassed = Forecast.isPassed(forecast.p50On(), asOf);
        String ofRating = isPassed ? "its rating was " : "its rating is reached ";
        String ofController = isPassed ? "its controller's 100 % were " : "its controller reaches 100 % ";
        return (forecast == drive.outlook().ratingForecast() ? ofRating : ofController) + when(forecast, asOf);
    }

    /** Of the threshold that the standing rests on: the likelier one to be reached in the time that decides; {@code null} without any. */
    static Forecast deciding(DriveAssessment drive) {
        ToDoubleFunction<Forecast> deciding = drive.standing() == Standing.DUE ? Forecast::withinLeadTime : Forecast::within4Quarters;
        Forecast ofRating = drive.outlook().ratingForecast();
        Forecast ofController = drive.outlook().controllerForecast();
        if (ofRating == null || ofController == null) {
            return ofRating == null ? ofController : ofRating;
        }
        return deciding.applyAsDouble(ofRating) >= deciding.applyAsDouble(ofController) ? ofRating : ofController;
    }

    private static String when(Forecast forecast, LocalDate asOf) {
        return forecast.middleInWords(asOf) + " (8 in 10: " + date(forecast, forecast.p10On(), asOf) + " to " + date(forecast, forecast.p90On(), asOf) + ")";
    }

    private static String date(Forecast forecast, LocalDate date, LocalDate asOf) {
        return date == null ? "more than ten years ahead" : Forecast.dateInWords(date, asOf) + (forecast.isBeyondEvidence(date) ? " (beyond evidence)" : "");
    }

    private static String driveAt(MachineRow row) {
        return place(row.assessment()) + ", " + row.drive().latest().drive().model();
    }

    /** The machine, and its site where one is known. */
    static String place(MachineAssessment assessment) {
        String site = assessment.machine().site();
        return assessment.machine().id() + (site == null ? "" : " at " + site);
    }

    private static String writtenOfRated(DriveAssessment drive) {
        String written = drive.wear().bytesWritten() == null ? "bytes written not reported"
            : Wording.number(drive.terabytesWritten(), 1) + " TB written";
        return drive.wear().endurance() == null ? written + ", no rating known"
            : written + " of " + Wording.number(drive.wear().endurance().ratedTerabytesWritten(), 1) + " TB rated ("
                + Wording.ratingSource(drive.wear().endurance()) + ")";
    }

    private static String percentageUsed(DriveAssessment drive) {
        Integer used = drive.percentageUsed();
        return used == null ? "percentage used not reported"
            : "percentage used " + Health.usedInWords(used);
    }

    private static String measures(DriveAssessment drive) {
        return "; writes say " + Wording.number(drive.wear().consumedPercent(), 0)
            + " %, the drive says " + Health.usedInWords(drive.percentageUsed())
            + (drive.wear().impliedEnduranceTerabytes() == null ? ""
                : " (implied endurance " + Wording.terabytes(drive.wear().impliedEnduranceTerabytes()) + ")");
    }
}
