package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.BiPredicate;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Effect;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Standing;
import org.wearledger.model.WorkItem;

/** One machine's page for its user or the repair counter: one file, no script, nothing fetched, two printed pages at most. */
public final class ExplainPage {
    private final MachineStory story;
    private final MachineAssessment machine;

    private final LocalDate issuedOn;

    private ExplainPage(MachineStory story, LocalDate issuedOn) {
        this.story = story;
        this.issuedOn = issuedOn;
        machine = story.machine();
    }

    /**
     * One HTML document that needs no other file: styles and picture stand in it.
     *
     * @param story of a machine that was seen or is in the inventory
     * @param issuedOn the day on which the page is made
     */
    public static String of(MachineStory story, LocalDate issuedOn) {
        return new ExplainPage(story, issuedOn).page();
    }

    private String page() {
        return PageFrame.of(machine.machine().id() + ": how far its drive is worn", described(),
            main(standing(), toDo(), each(story.drives(), drive -> new DriveSection(story, drive).content()), cannotTell(), cautions()),
            "Wearledger " + story.version() + ". All times are UTC. TB = 1,000,000,000,000 bytes.");
    }

    private String described() {
        List<String> parts = new ArrayList<>(List.of("Page of " + issuedOn));
        add(parts, "judged as of", story.asOf() == null ? null : story.asOf().toString());
        add(parts, "machine model", machine.machine().model());
        add(parts, "asset tag", machine.machine().assetTag());
        add(parts, "site", machine.machine().site());
        if (machine.machine().memoryBytes() != null) {
            parts.add("memory " + Math.round(machine.machine().memoryBytes() / (double) (1L << 30)) + " GiB");
        }
        parts.add(lastReport());
        return String.join("; ", parts) + ".";
    }

    private String lastReport() {
        if (machine.lastSeenAt() == null) {
            return machine.refused() == null ? "no report found" : "no usable report found";
        }
        return "last report " + Wording.day(machine.lastSeenAt()) + (machine.reportedThisSweep() ? "" : ", older than this sweep");
    }

    private static void add(List<String> parts, String name, String value) {
        if (value != null) {
            parts.add(name + " " + value);
        }
    }

    private DomContent standing() {
        DomContent why = machine.standing() == Standing.URGENT ? null : p("Why: " + why() + ".");
        return section(div(p(strong("Standing: " + machine.standing().label() + ".")), p(plainWords()), bothMeasures(), why).withClass("standing")).attr("aria-label", "Standing");
    }

    /** Of what is to come the dates alone: the chances behind them stand with the other figures. A doubt goes before both. */
    private String why() {
        boolean isAhead = machine.standing() == Standing.DUE || machine.standing() == Standing.WATCH;
        return machine.activeDrives().stream()
            .filter(drive -> isAhead && !isInDoubt() && drive.standing() == machine.standing() && MachineLines.deciding(drive) != null).findFirst()
            .map(drive -> MachineLines.dates(drive, story.asOf())).orElse(machine.reason());
    }

    /** Where just one of the two measures is past its end, the other would puzzle the reader. */
    private DomContent bothMeasures() {
        return machine.activeDrives().stream().filter(drive -> drive.standing() == Standing.PAST_RATING && drive.wear().consumedPercent() != null
                && drive.percentageUsed() != null && drive.wear().consumedPercent() >= 100 != drive.percentageUsed() >= 100).findFirst()
            .map(drive -> p(Wording.TWO_MEASURES + ". Here they are " + Wording.number(drive.wear().consumedPercent(), 0) + " % of the rating, and "
                + drive.percentageUsed() + " %.")).orElse(null);
    }

    /** A drive that itself reports its failing is replaced whatever its wear. */
    private boolean isInDoubt() {
        return is(DrivesToCheck::contains);
    }

    private boolean is(BiPredicate<DrivesToCheck, DriveAssessment> found) {
        return machine.standing() != Standing.URGENT
            && story.drives().stream().anyMatch(drive -> found.test(DrivesToCheck.of(drive.problems()), drive.drive()));
    }

    private String plainWords() {
        if (!isInDoubt()) {
            return ofStanding();
        }
        return (is(DrivesToCheck::isContradicted) ? "The figures of this drive contradict each other" : "The latest report of this drive could not be believed")
            + ", so its standing is in doubt: that is checked before anything is bought. Be sure of your backup.";
    }

    private String ofStanding() {
        return switch (machine.standing()) {
            case URGENT -> signs() + " Back up now, before anything else, and have the drive replaced.";
            case PAST_RATING -> pastRating();
            case DUE -> "The drive will probably reach its rated endurance within the time that ordering and installing another one takes. Be sure of your backup.";
            case WATCH -> "The drive may reach its rated endurance within a year. Nothing has to be bought today; be sure of your backup.";
            case WITHIN_RATING -> "By its writes the drive is within what its maker rates it for, and it is not likely to pass that within a year.";
            case NO_VERDICT -> withoutVerdict();
        };
    }

    private String withoutVerdict() {
        if (machine.isReportDisbelieved()) {
            return "What the drive reports could not be believed, so nothing can be said of its wear. Be sure of your backup.";
        }
        if (machine.driveNowIn() != null) {
            return "The drive that this machine reported is now in " + machine.driveNowIn() + "; of another drive in this machine nothing is known.";
        }
        return machine.driveReplacedOn() == null ? "Too little was reported to say how far the drive is worn."
            : "Its drive was replaced on " + OwnersWords.day(machine.driveReplacedOn()) + ". The new one was not read since, so nothing is known of its wear.";
    }

    private String signs() {
        return machine.activeDrives().stream().flatMap(drive -> drive.signs().stream()).map(SignWords::sentence).distinct().collect(Collectors.joining(" "));
    }

    private String pastRating() {
        boolean byWrites = isAny(drive -> drive.wear().consumedPercent() != null && drive.wear().consumedPercent() >= 100);
        boolean byController = isAny(drive -> drive.percentageUsed() != null && drive.percentageUsed() >= 100);
        String rated = isAny(drive -> drive.wear().endurance() != null && drive.wear().endurance().assumed())
            ? "what drives of its size are usually rated for (its maker's rating is not known)" : "what its maker rates it for";
        String writes = "the drive's writes have passed " + rated;
        String controller = "the drive's controller estimates its endurance as used up";
        if (byWrites != byController && isAny(DriveAssessment::measuresDisagree)) {
            return (byWrites ? Wording.sentenceCase(writes) + ", while its controller estimates it as far from used up"
                : Wording.sentenceCase(controller) + ", while its writes are far below " + rated)
                + ". It is checked which of the two is right before anything is bought. Be sure of your backup.";
        }
        String both = byController ? writes + ", and " + controller : writes;
        return Wording.sentenceCase(byWrites ? both : controller) + ". It still works, and may go on for long; but plan to replace it, and be sure of your backup.";
    }

    private boolean isAny(Predicate<DriveAssessment> of) {
        return machine.activeDrives().stream().filter(drive -> drive.standing() == Standing.PAST_RATING).anyMatch(of);
    }

    private DomContent toDo() {
        List<String> own = new ArrayList<>();
        List<String> ofIt = new ArrayList<>();
        boolean ordered = story.work().stream().anyMatch(item -> item.action() == WorkItem.Action.ORDER);
        // An order says itself what is to be checked before it.
        for (WorkItem item : story.work().stream().filter(item -> !ordered || item.action() != WorkItem.Action.CHECK_FIGURES)
            .sorted(Comparator.comparing(WorkItem::action)).toList()) {
            (item.action().isForTheUser() ? own : ofIt).add(Wording.sentenceCase(item.what())
                + (item.action() == WorkItem.Action.KEEP_POWERED ? "." : " (by " + item.byOn() + ")."));
        }
        if (!ordered) {
            story.planned().forEach(line -> ofIt.add("A replacement is planned: " + line.item() + ", needed by " + line.needOn()
                + ", to be ordered by " + line.orderByOn() + "."));
        }
        if (own.isEmpty()) {
            own.add("Keep backing up.");
        }
        if (ofIt.isEmpty() && machine.isOwn()) {
            ofIt.add(story.refusals().stream().anyMatch(problem -> problem.kind().effect() == Effect.FILE_REFUSED)
                ? "Find out why files were refused, as said below: its reports may be among them." : "Have the machine report again next quarter.");
        }
        return section(h2("What you can do"), ol(each(own, step -> li(step))),
            ofIt.isEmpty() ? null : each(h2(machine.isOwn() ? "What your IT does" : "What the shop does"), ol(each(ofIt, step -> li(step)))));
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
            story.refusals().isEmpty() ? null : DriveSection.rules(story.refusals()));
    }

    private static DomContent cautions() {
        return section(h2("Take care"), ul(each(MethodNotes.CAUTIONS, caution -> li(caution))));
    }
}
