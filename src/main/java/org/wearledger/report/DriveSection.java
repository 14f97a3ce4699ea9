package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import j2html.tags.specialized.TdTag;
import j2html.tags.specialized.ThTag;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.BandPoint;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Interval;
import org.wearledger.model.MachineStory;
import org.wearledger.model.MachineStory.DriveStory;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;

/** One drive on its machine's page: its picture, both measures, the dates, how each figure was reached, and every reading. */
final class DriveSection {
    private static final String EXPLAINING = "number wide";

    private final LocalDate asOf;
    private final Attachment attachmentOfMachine;
    private final DriveStory story;
    private final DriveAssessment drive;

    DriveSection(MachineStory page, DriveStory story) {
        asOf = page.asOf();
        attachmentOfMachine = page.machine().attachment();
        this.story = story;
        drive = story.drive();
    }

    DomContent content() {
        String name = drive.latest().drive().model() + ", serial " + drive.latest().drive().serial();
        Stream<DomContent> parts = Stream.of(each(pictures(name), picture -> picture), measures(), dates(), warranty(drive, asOf) == null ? null : p(warranty(drive, asOf)), reached(), readings(), rules(story.problems()));
        return section(h2("The drive: " + name + attachment()), each(parts.filter(part -> part != null)));
    }

    private String attachment() {
        Attachment reported = drive.latest().drive().attachment() == Attachment.UNKNOWN ? attachmentOfMachine : drive.latest().drive().attachment();
        return switch (reported) {
            case SOLDERED -> ", soldered: it cannot be changed by itself";
            case SOCKETED -> ", in a socket";
            case UNKNOWN -> "";
        };
    }

    /** Of a drive that is failing what shows it; else its wear. */
    private List<DomContent> pictures(String name) {
        List<DomContent> signs = SignSection.pictures(story, asOf);
        return signs.isEmpty() ? List.of(wear(name)) : signs;
    }

    private DomContent wear(String name) {
        String label = "Wear of " + name + " over time, in percent of its rated endurance; the figures stand in the table of readings";
        List<BandPoint> band = isUrgent() ? List.of() : story.band();
        return figure(rawHtml(WearPicture.svg(story, band, asOf, label)), figcaption("Black dots: written, as a share of the rated endurance. Boxes: "
            + "the controller's own estimate. "
            + (band.isEmpty() ? "" : "Grey: where the writes go in 8 cases of 10, dashed: the middle. ")
            + "Dotted line: " + asOf + ", the date of this sweep."));
    }

    private boolean isUrgent() {
        return drive.standing() == Standing.URGENT;
    }

    private DomContent measures() {
        return PageTable.labelled(Wording.TWO_MEASURES + ".",
            List.of(new String[] {"By its writes", byWrites()}, new String[] {"By its controller", byController()}));
    }

    private String byWrites() {
        if (drive.wear().bytesWritten() == null) {
            return "bytes written are not reported";
        }
        String written = Wording.number(drive.terabytesWritten(), 1) + " TB written";
        return drive.wear().endurance() == null ? written + "; no rating is known"
            : written + " of " + Wording.number(drive.wear().endurance().ratedTerabytesWritten(), 1) + " TB rated = " + Wording.number(drive.wear().consumedPercent(), 1) + " %";
    }

    private String byController() {
        if (drive.percentageUsed() == null) {
            return "no percentage used is reported";
        }
        Interval implied = drive.wear().impliedEnduranceTerabytes();
        return "percentage used " + Health.usedInWords(drive.percentageUsed()) + ", each maker's own estimate"
            + (implied == null ? "" : "; with the writes it implies an endurance of " + Wording.terabytes(implied));
    }

    private DomContent dates() {
        if (isUrgent()) {
            return p("No date is given: the drive is to be replaced now, however far it is worn.");
        }
        if (isPastRating()) {
            return p(passed() + " is passed already, so no date to come is given: it would say nothing of how long the drive lasts.");
        }
        List<Forecast> forecasts = Stream.of(drive.outlook().ratingForecast(), drive.outlook().controllerForecast()).filter(forecast -> forecast != null).toList();
        if (forecasts.isEmpty()) {
            return p(byStraightLine());
        }
        String caption = "When, as far as the past of this drive and of the fleet can tell.";
        return PageTable.scrolling(caption, table(caption(caption),
            thead(tr(each(List.of("What", "One chance in ten by", "Even chances by", "Nine in ten by", "Chance within a year"),
                heading -> th(heading).attr("scope", "col")))),
            tbody(each(forecasts, forecast -> tr(
                th(forecast == drive.outlook().ratingForecast() ? "Rated endurance written" : "Controller at 100 %").attr("scope", "row"),
                td(day(forecast, forecast.p10On())), td(day(forecast, forecast.p50On())
                    + (Forecast.isPassed(forecast.p50On(), asOf) ? ": probably passed already" : "")), td(day(forecast, forecast.p90On())),
                td(Forecast.probabilityInWords(forecast.within4Quarters())))))));
    }

    private String passed() {
        if (drive.outlook().projection() instanceof Projection.AlreadyPast past) {
            String when = past.lastBelowOn() == null ? "before the first reading, " + past.seenOn() : "between " + past.lastBelowOn() + " and " + past.seenOn();
            return "The rating was passed " + when + ". The rating";
        }
        return "By the controller's own estimate 100 % are reached. Its limit";
    }

    private String byStraightLine() {
        if (drive.outlook().projection() instanceof Projection.Reaches reaches) {
            boolean isPassed = Forecast.isPassed(reaches.date(), asOf);
            return "On a straight line the rating " + (isPassed ? "was probably passed already, about " : "is reached about ") + Forecast.dateInWords(reaches.date(), asOf)
                + "; this carries no stated uncertainty.";
        }
        return "No date can be given: " + drive.outlook().projection().basis() + ".";
    }

    /** {@code null} when nothing is known of one; what the terms are only the maker can say. */
    static String warranty(DriveAssessment drive, LocalDate asOf) {
        if (drive.wear().endurance() == null || drive.wear().endurance().warrantyYears() == null) {
            return null;
        }
        LocalDate end = drive.warrantyEndsOn();
        boolean written = drive.wear().consumedPercent() != null && drive.wear().consumedPercent() >= 100 && !drive.wear().endurance().assumed();
        return "Warranty of the drive: " + drive.wear().endurance().warrantyYears().stripTrailingZeros().toPlainString() + " years"
            + (end == null ? ", from a day that is not known" : " from " + drive.seen().inServiceOn() + (end.isBefore(asOf) ? ", which ended on " : ", until ") + end)
            + (written ? "; its rated endurance is written already" : "") + ". Most makers end it at the years or at the rated endurance, whichever comes first: look into "
            + "the maker's terms.";
    }

    /** By either measure. */
    private boolean isPastRating() {
        return drive.standing() == Standing.PAST_RATING || drive.wear().consumedPercent() != null && drive.wear().consumedPercent() >= 100
            || drive.percentageUsed() != null && drive.percentageUsed() >= 100;
    }

    private String day(Forecast forecast, LocalDate date) {
        return date == null ? "more than ten years ahead" : Forecast.dateInWords(date, asOf) + (forecast.isBeyondEvidence(date) ? " (beyond evidence)" : "");
    }

    private DomContent reached() {
        List<String> steps = new ArrayList<>();
        steps.add("Standing: " + drive.standing().label() + ", since " + drive.reason() + ".");
        HistoryPoint latest = latestWritten();
        if (latest != null) {
            steps.add(String.format(Locale.ROOT, "Written: %,d data units of %,d bytes%s = %s TB. Writes of the machine only, not the drive's own.",
                latest.reading().health().dataUnitsWritten(), Health.BYTES_PER_DATA_UNIT, drive.seen().epochs() > 1 ? ", and what its counters showed before they went back," : "",
                Wording.number(drive.terabytesWritten(), 3)));
        }
        if (drive.wear().endurance() != null) {
            steps.add("Rated: " + Wording.number(drive.wear().endurance().ratedTerabytesWritten(), 1) + " TB. Source: " + Wording.ratingSource(drive.wear().endurance()) + ".");
        }
        if (drive.wear().consumedPercent() != null) {
            steps.add("Consumed: 100 x " + Wording.number(drive.terabytesWritten(), 3) + " / " + Wording.number(drive.wear().endurance().ratedTerabytesWritten(), 1)
                + " = " + Wording.number(drive.wear().consumedPercent(), 1) + " %.");
        }
        if (drive.wear().impliedEnduranceTerabytes() != null) {
            steps.add("Implied endurance: written / percentage used, whose whole number is taken as plus or minus 1: "
                + Wording.terabytes(drive.wear().impliedEnduranceTerabytes()) + ".");
        }
        steps.add(writeRate());
        Stream.of(drive.outlook().ratingForecast(), drive.outlook().controllerForecast()).filter(forecast -> forecast != null && !isUrgent())
            .forEach(forecast -> steps.add("Dates and chances" + (forecast == drive.outlook().ratingForecast() ? "" : " of the controller's estimate") + ": " + forecast.basis() + "."));
        return div(h2("How each figure was reached"), ul(each(steps, step -> li(step))));
    }

    private String writeRate() {
        Double rate = drive.pace().gigabytesPerDay();
        if (rate == null) {
            return "Write rate: none; " + drive.outlook().projection().basis() + ".";
        }
        String basis = drive.pace().gigabytesPerDayLately() != null ? "the median slope between the last year's readings" + overLife() : "the average over the drive's life";
        return "Write rate: " + Wording.number(rate, 1) + " GB a day, " + basis + ".";
    }

    /** Dates count both, the years before the first report too. */
    private String overLife() {
        return drive.pace().gigabytesPerDayOverLife() == null ? ""
            : "; over the drive's life " + Wording.number(drive.pace().gigabytesPerDayOverLife(), 1) + " GB a day on average, and the dates count both";
    }

    private HistoryPoint latestWritten() {
        return story.history().points().stream().filter(point -> point.totalBytesWritten() != null).reduce((a, b) -> b).orElse(null);
    }

    /** On a phone without the columns that only explain the others. */
    private DomContent readings() {
        boolean counted = drive.seen().epochs() > 1;
        List<SignSection.Readings> signs = SignSection.columns(drive.signs());
        String caption = "Every reading used, in time order (UTC).";
        List<DomContent> headings = new ArrayList<>(List.of(th("Collected").attr("scope", "col"), heading("Written (TB)"), heading("Used (%)")));
        signs.forEach(sign -> headings.add(heading(sign.heading())));
        headings.addAll(List.of(heading("Data units written").withClass(EXPLAINING), heading("Power-on hours").withClass(EXPLAINING)));
        if (counted) {
            headings.add(heading("Run of the counters"));
        }
        return PageTable.scrolling(caption, table(caption(caption), thead(tr(each(headings, heading -> heading))),
            tbody(each(story.history().points(), point -> reading(point, signs, counted)))));
    }

    private static ThTag heading(String text) {
        return th(text).attr("scope", "col").withClass("number");
    }

    private static DomContent reading(HistoryPoint point, List<SignSection.Readings> signs, boolean counted) {
        Health health = point.reading().health();
        String[] collected = point.reading().collectedAt().toString().replace("Z", "").split("T");
        List<DomContent> cells = new ArrayList<>(List.of(
            th(text(collected[0]), span(" " + collected[1]).withClass("wide")).attr("scope", "row"),
            number(point.totalBytesWritten() == null ? "not reported" : Wording.number(point.totalBytesWritten().doubleValue() / 1e12, 3)),
            number(health.percentageUsed() == null ? "not reported" : health.percentageUsed().toString())));
        signs.forEach(sign -> cells.add(number(sign.cell(point))));
        cells.add(number(health.dataUnitsWritten() == null ? "not reported" : String.format(Locale.ROOT, "%,d", health.dataUnitsWritten())).withClass(EXPLAINING));
        cells.add(number(health.powerOnHours() == null ? "not reported" : String.format(Locale.ROOT, "%,d", health.powerOnHours())).withClass(EXPLAINING));
        if (counted) {
            cells.add(number(Integer.toString(point.epoch() + 1)));
        }
        return tr(each(cells, cell -> cell));
    }

    private static TdTag number(String text) {
        return td(text).withClass("number");
    }

    /** Of this drive, or of what else the page says; the files stand in the sweep's own table. */
    static DomContent rules(List<Problem> problems) {
        if (problems.isEmpty()) {
            return p("Every reading found of this drive was used; no rule set one aside.");
        }
        Map<ProblemKind, Long> byRule = problems.stream().collect(Collectors.groupingBy(Problem::kind, TreeMap::new, Collectors.summingLong(Problem::count)));
        return div(p("For your IT, what the rules noted or set aside (a sweep's " + SweepWriter.PROBLEMS_CSV + " says where):"), ul(each(byRule.entrySet(), rule -> li(rule.getKey().id()
            + " (" + rule.getKey().effect().label() + ")" + (rule.getValue() == 1 ? "" : ", " + rule.getValue() + " times") + ": " + FactWords.meaning(rule.getKey()) + "."))));
    }
}
