package org.wearledger.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.WarningSign;
import org.wearledger.model.WorkItem;
import org.wearledger.model.WorkItem.Action;

/** One machine in the table for IT: why in at most eight words, and what to do. */
final class ShortWords {
    private ShortWords() {
    }

    static String why(WorkRow work, LocalDate asOf) {
        DriveAssessment drive = work.row().drive();
        return drive == null ? unread(work) : switch (work.standing()) {
            case URGENT -> sign(drive.signs());
            case PAST_RATING -> past(drive);
            case DUE, WATCH -> ahead(drive, asOf);
            case WITHIN_RATING, NO_VERDICT -> unread(work);
        };
    }

    /** The first in the order of their gravity. */
    private static String sign(List<WarningSign> signs) {
        if (signs.isEmpty()) {
            return "drive reports a sign of failing";
        }
        WarningSign first = signs.get(0);
        return switch (first.kind()) {
            case READ_ONLY -> "drive is read-only";
            case RELIABILITY_DEGRADED -> "drive reports degraded reliability";
            case SPARE_AT_THRESHOLD -> "spare blocks " + first.from() + " %, threshold " + first.to() + " %";
            case SPARE_BELOW_THRESHOLD -> "spare blocks below the threshold";
            case MEDIA_ERRORS_ROSE -> "media errors rose from " + first.from() + " to " + first.to();
        };
    }

    private static String past(DriveAssessment drive) {
        Double consumed = drive.wear().consumedPercent();
        if (drive.measuresDisagree()) {
            return "writes say " + Wording.number(consumed, 0) + " %, drive says " + Health.usedInWords(drive.percentageUsed());
        }
        return consumed != null && consumed >= 100 ? wrote(drive) : "drive says " + Health.usedInWords(drive.percentageUsed()) + " used";
    }

    private static String ahead(DriveAssessment drive, LocalDate asOf) {
        Forecast forecast = MachineLines.deciding(drive);
        LocalDate date = forecast != null ? forecast.p50On() : drive.outlook().projection().dateOrNull();
        if (date == null) {
            return "may reach its rating within a year";
        }
        if (Forecast.isPassed(date, asOf)) {
            return "has probably passed its rating";
        }
        boolean ofController = forecast != null && forecast == drive.outlook().controllerForecast();
        return (ofController ? "drive says 100 % around " : "reaches its rating around ") + Forecast.dateInWords(date, asOf);
    }

    private static String unread(WorkRow work) {
        String why = whyUnread(work.row().assessment());
        if (why != null) {
            return why;
        }
        if (work.has(Action.CHECK_FIGURES)) {
            return "figures contradict each other";
        }
        return work.steps().isEmpty() ? used(work.row().drive()) : "see the steps";
    }

    /** {@code null} for a machine of which enough was reported in time. */
    private static String whyUnread(MachineAssessment machine) {
        if (machine.driveNowIn() != null) {
            return "its drive is in " + machine.driveNowIn();
        }
        if (machine.driveReplacedOn() != null && machine.activeDrives().isEmpty()) {
            return "new drive not read yet";
        }
        if (machine.isReportDisbelieved()) {
            return "its figures cannot be believed";
        }
        if (machine.latestSetAsideBy() != null) {
            return "its latest report was set aside";
        }
        if (machine.refused() != null) {
            return "its reports could not be used";
        }
        if (machine.lastSeenAt() == null) {
            return "never reported";
        }
        if (!machine.reportedThisSweep()) {
            return "not reported since " + Wording.day(machine.lastSeenAt());
        }
        if (!machine.inInventory()) {
            return "not in the inventory";
        }
        boolean measured = machine.activeDrives().stream().anyMatch(drive -> drive.wear().consumedPercent() != null || drive.percentageUsed() != null);
        return measured ? null : "too little was reported";
    }

    private static String used(DriveAssessment drive) {
        return drive.wear().consumedPercent() == null ? "drive says " + Health.usedInWords(drive.percentageUsed()) + " used" : wrote(drive);
    }

    private static String wrote(DriveAssessment drive) {
        return "wrote " + Wording.number(drive.terabytesWritten(), 0) + " of " + Wording.number(drive.wear().endurance().ratedTerabytesWritten(), 0) + " TB rated";
    }

    /** In the order in which it is to be done, such as {@code check figures; ask the maker, else order board}. */
    static String what(WorkRow work) {
        Set<Action> actions = work.steps().stream().map(WorkItem::action).collect(Collectors.toCollection(() -> EnumSet.noneOf(Action.class)));
        MachineAssessment machine = work.row().assessment();
        List<String> words = new ArrayList<>(work.decision() == null ? List.of() : List.of(work.decided()));
        for (Action action : actions) {
            String said = switch (action) {
                case BACK_UP -> "back up now";
                case CHECK_BACKUP -> "check the backup";
                case CHECK_FIGURES -> "check the figures";
                case ASK_MAKER -> askMaker(work, actions.contains(Action.ORDER));
                case ORDER -> actions.contains(Action.ASK_MAKER) ? null : "order " + work.items();
                case GET_REPORT -> machine.driveNowIn() == null ? "collect a report" : "check whether it was renamed " + machine.driveNowIn();
                case INVENTORY -> inventory(work);
                case WRITE_LESS -> "move large files off it";
                case REPLACE -> work.decision() != null ? "have it fitted" : null;
                case KEEP_POWERED, MORE_MEMORY -> null;
            };
            if (said != null) {
                words.add(said);
            }
        }
        return String.join("; ", words);
    }

    private static String askMaker(WorkRow work, boolean orders) {
        if (work.decision() != null) {
            return "ask the maker about it";
        }
        return "ask the maker" + (work.claimBy() == null ? "" : " by " + work.claimBy()) + (orders ? ", else order " + work.items() : "");
    }

    private static String inventory(WorkRow work) {
        if (work.former() != null) {
            return "check whether it was " + work.former() + " before";
        }
        String renamed = work.row().assessment().driveNowIn();
        return renamed != null ? "check whether it was renamed " + renamed : "enter it in the inventory";
    }

    /** Such as {@code 87.50}; {@code no price} where there is none, and nothing where nothing is ordered. */
    static String cost(WorkRow work) {
        if (work.orders().isEmpty()) {
            return "";
        }
        return work.orders().stream().anyMatch(order -> order.price() == null) ? "no price" : Wording.amount(work.amount(), "");
    }
}
