package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Standing;

/**
 * One machine's page for its owner, a customer: what was seen of the drive that is in it now and what the owner can do, in plain words. No
 * file, rule or internal task stands on it.
 */
public final class CustomerPage {
    private static final String TIMES_ASSUME = "The times assume that the computer is used as before.";
    private static final List<String> TO_KNOW = List.of(
        "Any drive can fail without a warning sign, a new one too. So keep a backup, whatever this page says.",
        "The rating is how much writing the maker stands behind. Many drives go on for long after it, some do not.",
        TIMES_ASSUME,
        "Opening the computer, its battery and soldering are for qualified people.",
        "An old drive holds your data. Have it wiped or destroyed, and dispose of it by local rules.");

    private final MachineStory story;
    private final MachineAssessment machine;
    private final boolean isInDoubt;

    private final LocalDate issuedOn;

    private CustomerPage(MachineStory story, LocalDate issuedOn) {
        this.story = story;
        this.issuedOn = issuedOn;
        machine = story.machine();
        isInDoubt = machine.standing() != Standing.URGENT && story.drives().stream()
            .anyMatch(drive -> OwnersWords.isInDoubt(drive.drive(), DrivesToCheck.of(drive.problems())));
    }

    /**
     * One HTML document that needs no other file.
     *
     * @param story of a machine that was seen or is in the inventory
     * @param issuedOn the day on which the page is made
     */
    public static String of(MachineStory story, LocalDate issuedOn) {
        return new CustomerPage(story, issuedOn).page();
    }

    private String page() {
        String model = machine.machine().model() == null ? "" : ", " + machine.machine().model();
        String seen = machine.lastSeenAt() == null ? "No usable report of it was found." : "As seen on " + OwnersWords.day(Wording.day(machine.lastSeenAt())) + ".";
        return PageFrame.of("Your computer " + machine.machine().id() + model + ": how far its drive is worn", "Page of " + OwnersWords.day(issuedOn) + ". " + seen,
            main(div(p(strong(verdict())), p(advice())).withClass("standing"), each(machine.activeDrives(), this::drive),
                section(h2("What you can do"), ol(each(toDo(), step -> li(step)))), section(h2("Good to know"), ul(each(toKnow(), note -> li(note)))),
                section(h2("Who to ask"), p("The shop that gave you this page" + (machine.machine().site() == null ? "" : ": " + machine.machine().site()) + "."))),
            "Made with Wearledger " + story.version() + ". 1 TB is 1,000,000,000,000 bytes.");
    }

    private String verdict() {
        if (isInDoubt) {
            return "How far your drive is worn is not certain.";
        }
        boolean byOwnEstimate = isByOwnEstimate();
        return switch (machine.standing()) {
            case URGENT -> "Your drive shows signs of failing. Back up your data now.";
            case PAST_RATING -> byOwnEstimate ? "By its own estimate your drive is used up." : "Your drive has written more than " + limit().replaceFirst("^what ", "") + ".";
            case DUE -> due(byOwnEstimate);
            case WATCH -> byOwnEstimate ? "By its own estimate your drive may be used up within a year." : "Your drive may have written " + limit() + " within a year.";
            case WITHIN_RATING -> machine.activeDrives().stream().anyMatch(OwnersWords::isOverAssumedRating) ? "By its own estimate your drive is not used up."
                : "Your drive is within " + limit() + ".";
            case NO_VERDICT -> machine.driveReplacedOn() == null ? "How far your drive is worn is not known."
                : "Your drive was replaced on " + OwnersWords.day(machine.driveReplacedOn()) + ".";
        };
    }

    private String due(boolean byOwnEstimate) {
        boolean reached = machine.activeDrives().stream().anyMatch(drive -> OwnersWords.isProbablyReached(drive, story.asOf()));
        if (byOwnEstimate) {
            return "By its own estimate your drive " + (reached ? "is probably used up by now." : "will probably soon be used up.");
        }
        return reached ? "Your drive has probably written " + limit() + " by now." : "Your drive will probably soon have written " + limit() + ".";
    }

    private String limit() {
        return machine.activeDrives().stream().filter(drive -> drive.standing() == machine.standing()).findFirst().map(OwnersWords::limit)
            .map(limit -> limit.startsWith("what drives") ? limit + " (common practice)" : limit).orElse("what it is rated for");
    }

    private boolean isByOwnEstimate() {
        return machine.activeDrives().stream().filter(drive -> drive.standing() == machine.standing()).allMatch(OwnersWords::isByOwnEstimate);
    }

    private String advice() {
        if (isInDoubt) {
            return "Its figures contradict each other, or the last ones could not be believed. " + (machine.standing().compareTo(Standing.DUE) <= 0
                ? "We check that first, before you pay for anything." : "Nothing has to be bought now. Keep your backup up to date.");
        }
        return switch (machine.standing()) {
            case URGENT -> signs() + "It should be replaced, however much it has written.";
            case PAST_RATING -> "It worked when we saw it, on " + OwnersWords.day(Wording.day(machine.lastSeenAt()))
                + ", and may go on for long. But plan to have it replaced, and keep your backup up to date.";
            case DUE -> "Plan to have it replaced, and keep your backup up to date.";
            case WATCH -> "Nothing has to be bought today. Keep your backup up to date.";
            case WITHIN_RATING -> "Nothing has to be bought. Keep your backup up to date.";
            case NO_VERDICT -> (machine.driveReplacedOn() == null ? "Too little was reported." : "The new one was not read since, so nothing is known of its wear.")
                + " Keep your backup up to date.";
        };
    }

    private String signs() {
        return machine.activeDrives().stream().flatMap(drive -> drive.signs().stream()).map(SignWords::forOwner).distinct().map(sentence -> sentence + " ").collect(Collectors.joining());
    }

    private DomContent drive(DriveAssessment drive) {
        Stream<String> words = Stream.of(OwnersWords.written(drive), OwnersWords.used(drive), hasNoWords() ? null : OwnersWords.when(drive, story.asOf()));
        return section(h2("The drive: " + OwnersWords.name(drive)), each(words.filter(sentence -> sentence != null).map(sentence -> p(sentence))));
    }

    private List<String> toKnow() {
        boolean hasTimes = machine.activeDrives().stream().anyMatch(this::hasTime);
        return TO_KNOW.stream().filter(note -> hasTimes || !note.equals(TIMES_ASSUME)).toList();
    }

    private boolean hasNoWords() {
        return isInDoubt || machine.standing() == Standing.URGENT;
    }

    private boolean hasTime(DriveAssessment drive) {
        return !hasNoWords() && OwnersWords.when(drive, story.asOf()).startsWith("Used as before");
    }

    private List<String> toDo() {
        boolean isUrgent = machine.standing() == Standing.URGENT;
        boolean toReplace = !isInDoubt && machine.standing().compareTo(Standing.DUE) <= 0;
        List<String> steps = new ArrayList<>();
        steps.add((isUrgent ? "Back up now" : "Back up first")
            + ", before anything else is done to the computer: copy your data to another disk. Then open some of the copies to see that they can be read.");
        if (!toReplace) {
            steps.add(toBeSeenAgain());
            return steps;
        }
        LocalDate until = warrantyEndsOn();
        if (until != null && !until.isBefore(story.asOf())) {
            steps.add("Ask about the warranty: by its date it runs until " + OwnersWords.day(until) + ". Most makers end it once the rated amount is written, too. "
                + "A drive that is sent in takes your data along: ask what becomes of them.");
        }
        steps.add((isUrgent ? "Have the drive replaced; until then use the computer as little as you can." : "Ask what replacing the drive costs.")
            + (machine.attachment() == Attachment.SOLDERED ? " It is soldered in and cannot be changed by itself: ask about a new board, and whether another computer is the better choice." : ""));
        if (!isUrgent) {
            steps.add("Keep large files that change often, such as films that you edit, on another disk. Deleting files gives no life back.");
        }
        steps.add("Do not leave the computer switched off for months with your only copy on it.");
        return steps;
    }

    private String toBeSeenAgain() {
        if (machine.driveReplacedOn() != null) {
            return "Have the new drive read when the computer is in the shop next.";
        }
        if (isInDoubt || machine.standing() == Standing.NO_VERDICT) {
            return "Have it looked at again soon.";
        }
        return "Have it looked at again in about " + (machine.standing() == Standing.WATCH ? "three months." : "a year.");
    }

    /** The later of the drive's and the machine's; {@code null} when neither is known. */
    private LocalDate warrantyEndsOn() {
        return Stream.concat(Stream.ofNullable(machine.warrantyEndsOn()), machine.activeDrives().stream().map(DriveAssessment::warrantyEndsOn).filter(end -> end != null))
            .max(LocalDate::compareTo).orElse(null);
    }
}
