package org.wearledger.report;

import static j2html.TagCreator.body;
import static j2html.TagCreator.caption;
import static j2html.TagCreator.div;
import static j2html.TagCreator.document;
import static j2html.TagCreator.each;
import static j2html.TagCreator.figcaption;
import static j2html.TagCreator.figure;
import static j2html.TagCreator.footer;
import static j2html.TagCreator.h1;
import static j2html.TagCreator.h2;
import static j2html.TagCreator.head;
import static j2html.TagCreator.header;
import static j2html.TagCreator.html;
import static j2html.TagCreator.li;
import static j2html.TagCreator.main;
import static j2html.TagCreator.meta;
import static j2html.TagCreator.ol;
import static j2html.TagCreator.p;
import static j2html.TagCreator.rawHtml;
import static j2html.TagCreator.section;
import static j2html.TagCreator.strong;
import static j2html.TagCreator.style;
import static j2html.TagCreator.table;
import static j2html.TagCreator.tbody;
import static j2html.TagCreator.td;
import static j2html.TagCreator.th;
import static j2html.TagCreator.thead;
import static j2html.TagCreator.title;
import static j2html.TagCreator.tr;
import static j2html.TagCreator.ul;

import j2html.tags.DomContent;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Forecast;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.MachineStory.DriveStory;
import org.wearledger.model.Problem;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.WorkItem;

/** One machine's page for its user or the repair counter: one file, no script, nothing fetched, two printed pages at most. */
public final class ExplainPage {
    private static final String STYLE = """
        :root { color-scheme: light; }
        body { margin: 0 auto; max-width: 46rem; padding: 0 1rem 1.5rem; background: #fff; color: #111;
          font: 1rem/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
        h1 { font-size: 1.5rem; margin: 1rem 0 .3rem; } h2 { font-size: 1.1rem; margin: 1.2rem 0 .3rem; }
        p, ul, ol, figure { margin: .3rem 0 .6rem; } figure svg { display: block; width: 100%; height: auto; }
        figcaption, caption { font-size: .88rem; text-align: left; }
        .standing { border: 2px solid #111; padding: .5rem .8rem; } .table { overflow-x: auto; }
        table { border-collapse: collapse; width: 100%; font-size: .88rem; overflow-wrap: normal; margin-bottom: .5rem; }
        th, td { border-bottom: 1px solid #767676; padding: .2rem .5rem .2rem 0; text-align: left; vertical-align: top; }
        td.number { text-align: right; font-variant-numeric: tabular-nums; white-space: nowrap; } th.number { text-align: right; }
        footer { margin-top: 1rem; font-size: .85rem; }
        @media print { @page { size: A4; margin: 12mm; } body { font-size: 8.6pt; line-height: 1.3; max-width: none; padding: 0; }
          h1 { font-size: 14pt; margin-top: 0; } h2 { font-size: 10.5pt; margin: 2.5mm 0 .8mm; break-after: avoid; }
          p, ul, ol, figure { margin: .6mm 0 1.4mm; } figcaption, caption, footer { font-size: 7.4pt; } figure svg { max-height: 62mm; } table { font-size: 7.4pt; }
          th, td { padding: .2mm 2mm .2mm 0; } .table { overflow: visible; } tr, figure { break-inside: avoid; } }
        """;

    private final MachineStory story;
    private final MachineAssessment machine;

    private ExplainPage(MachineStory story) {
        this.story = story;
        machine = story.machine();
    }

    /**
     * One HTML document that needs no other file: styles and picture stand in it.
     *
     * @param story of a machine that was seen or is in the inventory
     */
    public static String of(MachineStory story) {
        return VisibleText.ofLines(new ExplainPage(story).page()) + "\n";
    }

    private String page() {
        String heading = machine.machine().id() + ": how far its drive is worn";
        return document(html(
            head(meta().withCharset("utf-8"), meta().withName("viewport").withContent("width=device-width, initial-scale=1"),
                title(heading), style(rawHtml(STYLE))),
            body(header(h1(heading), p(described())),
                main(standing(), toDo(), each(story.drives(), this::drive), cannotTell(), cautions()),
                footer(p("Wearledger " + story.version() + ". All times are UTC. TB = 1,000,000,000,000 bytes.")))
        ).withLang("en"));
    }

    private String described() {
        List<String> parts = new ArrayList<>();
        parts.add("As of " + story.asOf());
        add(parts, "machine model", machine.machine().model());
        add(parts, "asset tag", machine.machine().assetTag());
        add(parts, "site", machine.machine().site());
        if (machine.machine().memoryBytes() != null) {
            parts.add("memory " + Math.round(machine.machine().memoryBytes() / (double) (1L << 30)) + " GiB");
        }
        parts.add(machine.lastSeenAt() == null ? "no report found" : "last report " + Wording.day(machine.lastSeenAt())
            + (machine.reportedThisSweep() ? "" : ", older than this sweep"));
        return String.join("; ", parts) + ".";
    }

    private static void add(List<String> parts, String name, String value) {
        if (value != null) {
            parts.add(name + " " + value);
        }
    }

    private DomContent standing() {
        return section(div(p(strong("Standing: " + machine.standing().label() + ".")), p(plainWords(machine.standing())), bothMeasures(),
            p("Why: " + machine.reason() + ".")).withClass("standing")).attr("aria-label", "Standing");
    }

    /** Where just one of the two measures is past its end, the other would puzzle the reader. */
    private DomContent bothMeasures() {
        return machine.activeDrives().stream().filter(drive -> drive.standing() == Standing.PAST_RATING && drive.consumedPercent() != null
                && drive.percentageUsed() != null && drive.consumedPercent() >= 100 != drive.percentageUsed() >= 100).findFirst()
            .map(drive -> p(Wording.TWO_MEASURES + ". Here they are " + Wording.number(drive.consumedPercent(), 0) + " % of the rating, and "
                + drive.percentageUsed() + " %.")).orElse(null);
    }

    private static String plainWords(Standing standing) {
        return switch (standing) {
            case URGENT -> "The drive itself reports that it is failing. Back up now, before anything else. It has to be replaced.";
            case PAST_RATING -> "The drive has been used past what its maker rates it for, by its writes or by its controller's own estimate. It still "
                + "works, and may go on for long; but plan to replace it, and be sure of your backup.";
            case DUE -> "The drive will probably reach its rated endurance within the time that ordering and installing another one takes. Be sure of your backup.";
            case WATCH -> "The drive may reach its rated endurance within a year. Nothing has to be bought today; be sure of your backup.";
            case WITHIN_RATING -> "By its writes the drive is within what its maker rates it for, and it is not likely to pass that within a year.";
            case NO_VERDICT -> "Too little was reported to say how far the drive is worn.";
        };
    }

    private DomContent toDo() {
        List<String> own = new ArrayList<>();
        List<String> ofIt = new ArrayList<>();
        for (WorkItem item : story.work().stream().sorted(Comparator.comparing(WorkItem::action)).toList()) {
            (item.action().isForTheUser() ? own : ofIt).add(Wording.sentenceCase(item.what())
                + (item.action() == WorkItem.Action.KEEP_POWERED ? "." : " (by " + item.byOn() + ")."));
        }
        if (story.work().stream().noneMatch(item -> item.action() == WorkItem.Action.ORDER)) {
            story.planned().forEach(line -> ofIt.add("A replacement is planned: " + line.item() + ", needed by " + line.needOn()
                + ", to be ordered by " + line.orderByOn() + "."));
        }
        if (own.isEmpty()) {
            own.add("Keep backing up.");
        }
        if (ofIt.isEmpty()) {
            ofIt.add("Have the machine report again next quarter.");
        }
        return section(h2("What you can do"), ol(each(own, step -> li(step))), h2("What your IT does"), ol(each(ofIt, step -> li(step))));
    }

    private DomContent drive(DriveStory drive) {
        String name = drive.drive().latest().drive().model() + ", serial " + drive.drive().latest().drive().serial();
        Stream<DomContent> parts = Stream.of(picture(drive, name), measures(drive), dates(drive.drive()), reached(drive), readings(drive), rules(drive.problems()));
        return section(h2("The drive: " + name + attachment(drive.drive())), each(parts.filter(part -> part != null)));
    }

    private String attachment(DriveAssessment drive) {
        Attachment reported = drive.latest().drive().attachment() == Attachment.UNKNOWN ? machine.attachment() : drive.latest().drive().attachment();
        return reported == Attachment.SOLDERED ? ", soldered: it cannot be changed by itself" : reported == Attachment.SOCKETED ? ", in a socket" : "";
    }

    private DomContent picture(DriveStory drive, String name) {
        String label = "Wear of " + name + " over time, in percent of its rated endurance; the figures stand in the table of readings";
        return figure(rawHtml(WearPicture.svg(drive, story.asOf(), label)), figcaption("Black dots: written, as a share of the rated endurance. Boxes: "
            + "the controller's own estimate. "
            + (drive.band().isEmpty() ? "" : "Grey: where the writes go with 8 chances in 10, dashed: as likely as not. ")
            + "Dotted upright: " + story.asOf() + "."));
    }

    private DomContent measures(DriveStory story) {
        DriveAssessment drive = story.drive();
        Integer used = drive.percentageUsed();
        List<String[]> rows = new ArrayList<>();
        rows.add(new String[] {"By its writes", drive.bytesWritten() == null ? "bytes written are not reported"
            : Wording.number(drive.terabytesWritten(), 1) + " TB written" + (drive.endurance() == null ? "; no rating is known"
                : " of " + Wording.number(drive.endurance().ratedTerabytesWritten(), 1) + " TB rated = " + Wording.number(drive.consumedPercent(), 1) + " %")});
        rows.add(new String[] {"By its controller", used == null ? "no percentage used is reported"
            : "percentage used " + used + " %" + (used >= 255 ? " or more" : "") + ", each maker's own estimate"
                + (drive.impliedEnduranceTerabytes() == null ? "" : "; with the writes it implies an endurance of "
                    + Wording.terabytes(drive.impliedEnduranceTerabytes()))});
        return labelled(Wording.TWO_MEASURES + ".", rows);
    }

    private static DomContent labelled(String caption, List<String[]> rows) {
        return scrolling(caption, table(caption(caption), tbody(each(rows, row -> tr(th(row[0]).attr("scope", "row"), td(row[1]))))));
    }

    /** A wide table scrolls by itself on a narrow screen, and by keyboard. */
    private static DomContent scrolling(String label, DomContent content) {
        return div(content).withClass("table").attr("role", "region").attr("tabindex", "0").attr("aria-label", label);
    }

    private DomContent dates(DriveAssessment drive) {
        List<Forecast> forecasts = Stream.of(drive.ratingForecast(), drive.controllerForecast()).filter(forecast -> forecast != null).toList();
        String passed = drive.projection() instanceof Projection.AlreadyPast past ? "The rating was passed "
            + (past.lastBelowOn() == null ? "before the first reading, " + past.seenOn() : "between " + past.lastBelowOn() + " and " + past.seenOn()) + "." : null;
        if (forecasts.isEmpty()) {
            return p(passed != null ? passed : drive.projection() instanceof Projection.Reaches reaches
                ? "On a straight line the rating is reached about " + Wording.projectedDate(reaches.date(), story.asOf()) + "; this carries no stated uncertainty."
                : "No date can be given: " + drive.projection().basis() + ".");
        }
        String caption = "When, as far as the past of this drive and of the fleet can tell.";
        return div(passed == null ? null : p(passed), scrolling(caption, table(caption(caption),
            thead(tr(each(List.of("What", "One chance in ten by", "As likely as not by", "Nine in ten by", "Chance within a year"),
                heading -> th(heading).attr("scope", "col")))),
            tbody(each(forecasts, forecast -> tr(
                th(forecast == drive.ratingForecast() ? "Rated endurance written" : "Controller at 100 %").attr("scope", "row"),
                td(day(forecast, forecast.p10On())), td(day(forecast, forecast.p50On())), td(day(forecast, forecast.p90On())),
                td(Wording.probability(forecast.within4Quarters()))))))));
    }

    private String day(Forecast forecast, LocalDate date) {
        return date == null ? "more than ten years ahead" : Wording.projectedDate(date, story.asOf()) + (forecast.isBeyondEvidence(date) ? " (beyond evidence)" : "");
    }

    private DomContent reached(DriveStory story) {
        DriveAssessment drive = story.drive();
        List<String> steps = new ArrayList<>();
        HistoryPoint latest = latestWritten(story);
        if (latest != null) {
            steps.add(String.format(Locale.ROOT, "Written: %,d data units of %,d bytes%s = %s TB. Writes of the machine only, not the drive's own.",
                latest.reading().health().dataUnitsWritten(), Health.BYTES_PER_DATA_UNIT, drive.epochs() > 1 ? ", and what its counters showed before they went back," : "",
                Wording.number(drive.terabytesWritten(), 3)));
        }
        if (drive.endurance() != null) {
            steps.add("Rated: " + Wording.number(drive.endurance().ratedTerabytesWritten(), 1) + " TB. Source: " + Wording.ratingSource(drive.endurance()) + ".");
        }
        if (drive.consumedPercent() != null) {
            steps.add("Consumed: 100 x " + Wording.number(drive.terabytesWritten(), 3) + " / " + Wording.number(drive.endurance().ratedTerabytesWritten(), 1)
                + " = " + Wording.number(drive.consumedPercent(), 1) + " %.");
        }
        if (drive.impliedEnduranceTerabytes() != null) {
            steps.add("Implied endurance: written / percentage used, whose whole number is taken as plus or minus 1: "
                + Wording.terabytes(drive.impliedEnduranceTerabytes()) + ".");
        }
        steps.add(drive.gigabytesPerDay() == null ? "Write rate: none; " + drive.projection().basis() + "."
            : "Write rate: " + Wording.number(drive.gigabytesPerDay(), 1) + " GB a day, " + (drive.gigabytesPerDayLately() != null
                ? "the median slope between the last year's readings." : "the average over the drive's life."));
        Stream.of(drive.ratingForecast(), drive.controllerForecast()).filter(forecast -> forecast != null)
            .forEach(forecast -> steps.add("Dates and chances" + (forecast == drive.ratingForecast() ? "" : " of the controller's estimate") + ": " + forecast.basis() + "."));
        return div(h2("How each figure was reached"), ul(each(steps, step -> li(step))));
    }

    private static HistoryPoint latestWritten(DriveStory story) {
        return story.history().points().stream().filter(point -> point.totalBytesWritten() != null).reduce((a, b) -> b).orElse(null);
    }

    private static DomContent readings(DriveStory story) {
        boolean counted = story.drive().epochs() > 1;
        String caption = "Every reading used, in time order.";
        List<String> headings = new ArrayList<>(List.of("Collected (UTC)", "File", "Data units written", "Written in all (TB)", "Percentage used (%)", "Power-on hours"));
        if (counted) {
            headings.add("Run of the counters");
        }
        return scrolling(caption, table(caption(caption),
            thead(tr(each(headings, heading -> th(heading).attr("scope", "col").withCondClass(headings.indexOf(heading) > 1, "number")))),
            tbody(each(story.history().points(), point -> reading(point, counted)))));
    }

    private static DomContent reading(HistoryPoint point, boolean counted) {
        Health health = point.reading().health();
        List<DomContent> cells = new ArrayList<>(List.of(
            th(point.reading().collectedAt().toString().replace("T", " ").replace("Z", "")).attr("scope", "row"),
            td(point.reading().source().file() + ("whole file".equals(point.reading().source().place()) ? "" : ", " + point.reading().source().place())),
            number(health.dataUnitsWritten() == null ? "not reported" : String.format(Locale.ROOT, "%,d", health.dataUnitsWritten())),
            number(point.totalBytesWritten() == null ? "" : Wording.number(point.totalBytesWritten().doubleValue() / 1e12, 3)),
            number(health.percentageUsed() == null ? "not reported" : health.percentageUsed().toString()),
            number(health.powerOnHours() == null ? "not reported" : String.format(Locale.ROOT, "%,d", health.powerOnHours()))));
        if (counted) {
            cells.add(number(Integer.toString(point.epoch() + 1)));
        }
        return tr(each(cells, cell -> cell));
    }

    private static DomContent number(String text) {
        return td(text).withClass("number");
    }

    private static DomContent rules(List<Problem> problems) {
        if (problems.isEmpty()) {
            return p("Every reading found of this drive was used; no rule set one aside.");
        }
        return div(p("What the rules noted or set aside:"), ul(each(problems, problem -> li(problem.kind().id() + " (" + problem.kind().effect().label() + "): "
            + problem.sentence() + "."))));
    }

    private DomContent cannotTell() {
        List<String> limits = new ArrayList<>(List.of(
            "Wear is not failure. Most drives that fail do so for other causes, many without any warning: a supply circuit, a solder joint, a fault of the firmware.",
            "The rating is what the maker stands behind, not the day a drive ends. Deleting files gives no endurance back.",
            "Dates assume that the machine is used much as before, or changes no faster than the fleet's past has shown."));
        if (story.drives().isEmpty()) {
            limits.add(0, "There is no usable report of a drive in this machine, so nothing is known of its wear.");
        }
        return section(h2("What these figures cannot tell"), ul(each(limits, limit -> li(limit))),
            story.refusals().isEmpty() ? null : rules(story.refusals()));
    }

    private static DomContent cautions() {
        return section(h2("Take care"), ul(each(MethodNotes.CAUTIONS, caution -> li(caution))));
    }
}
