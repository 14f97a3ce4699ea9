package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import j2html.tags.specialized.TdTag;
import j2html.tags.specialized.TrTag;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Health;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** Machines on the fleet's page, worst first; the page's script searches, filters and sorts them. */
final class FleetTable {
    /** So many open at once in a browser; a larger fleet shows those that need something. */
    static final int MOST_MACHINES = 2_000;
    private static final List<String> OF_OWNERS = List.of("Machine", "Shop", "Laptop model", "Standing", "Why", "When");
    private static final Comparator<MachineRow> MOST_WORN_FIRST = Comparator.comparing((MachineRow row) -> row.assessment().standing())
        .thenComparing(MachineRow::usedPercent, Comparator.reverseOrder()).thenComparing(MachineRow::machineId);

    private final SweepResult result;

    FleetTable(SweepResult result) {
        this.result = result;
    }

    /** The table for IT, and behind it the machines that need nothing. */
    DomContent own(Overview overview) {
        Set<MachineAssessment> withWork = overview.work().stream().map(work -> work.row().assessment()).collect(Collectors.toSet());
        List<MachineAssessment> others = result.ownMachines().stream().filter(machine -> !withWork.contains(machine)).toList();
        boolean showsAll = withWork.size() + others.size() <= MOST_MACHINES;
        Stream<WorkRow> shown = Stream.concat(overview.work().stream(), showsAll ? others.stream().map(FleetTable::worst).sorted(MOST_WORN_FIRST)
            .map(WorkRow::nothing) : Stream.empty());
        String left = showsAll ? "" : withWork.size() <= MOST_MACHINES ? "Only machines that need something are shown, " + withWork.size() + " of " + result.ownMachines().size() + "; " + SweepWriter.MACHINES_CSV + " has all."
            : "The worst " + MOST_MACHINES + " of " + withWork.size() + " machines that need something are shown; " + SweepWriter.WORK_LIST_CSV + " has all.";
        List<String> headings = overview.headings();
        return finder("own-machines", "Machines, what each needs and by when; the worst first", left, showsAll && !others.isEmpty(), headings,
            shown.limit(MOST_MACHINES).map(row -> row(row, headings, overview.cells(row))).toList());
    }

    private static MachineRow worst(MachineAssessment machine) {
        return MachineRow.of(List.of(machine)).stream().min(MachineRow.WORST_FIRST).orElseThrow();
    }

    private TrTag row(WorkRow work, List<String> headings, List<String> cells) {
        List<DomContent> shown = new ArrayList<>();
        for (int i = 0; i < cells.size(); i++) {
            String heading = headings.get(i);
            shown.add(heading.equals("Do") ? toDo(work, cells.get(i)) : heading.equals(Overview.BY) && !work.steps().isEmpty() ? cell(cells.get(i), "by").attr("data-key", work.byOn())
                : heading.equals(Overview.COST) ? cost(cells.get(i), work.amount()) : plain(i, heading, cells.get(i), work.standing()));
        }
        return row(work.row(), shown).withCondClass(!work.steps().isEmpty(), "todo");
    }

    private static TdTag cost(String words, BigDecimal amount) {
        TdTag cell = cell(words, "cost number");
        return amount == null ? cell : cell.attr("data-key", amount.toPlainString());
    }

    private static TrTag row(MachineRow row, List<DomContent> cells) {
        return tr(each(cells, cell -> cell)).attr("role", "row").attr("data-site", words(row.assessment().machine().site())).attr("data-laptop", words(row.assessment().machine().model()))
            .attr("data-drive", row.drive() == null ? "" : words(row.drive().latest().drive().model())).attr("data-standing", row.assessment().standing().label());
    }

    private static String words(String name) {
        return name == null ? "" : VisibleText.of(name);
    }

    /** Standings sort by urgency, and have a shape beside the word. */
    private static DomContent plain(int column, String heading, String words, Standing standing) {
        return column == 0 ? th(words).attr("scope", "row").attr("role", "rowheader")
            : heading.equals("Standing") ? cell(words, shape(standing)).attr("data-key", standing.ordinal()) : cell(words, "");
    }

    static String shape(Standing standing) {
        return "is-" + standing.label().replace(' ', '-');
    }

    private static TdTag cell(String words, String styles) {
        TdTag cell = td(words).attr("role", "cell");
        return styles.isEmpty() ? cell : cell.withClass(styles);
    }

    private DomContent toDo(WorkRow work, String what) {
        return work.steps().isEmpty() ? cell(what, "do") : cell("", "do").with(details(summary(what), p("Seen: " + seen(work.row())),
            ol(each(work.steps(), step -> li("By " + step.byOn() + ": " + step.what() + "."))), p(known(work.row()))));
    }

    private String seen(MachineRow row) {
        DriveAssessment drive = row.drive();
        boolean isAhead = drive != null && (drive.standing() == Standing.DUE || drive.standing() == Standing.WATCH) && MachineLines.deciding(drive) != null;
        return row.reason() + (isAhead ? "; " + MachineLines.dates(drive, result.asOf()) : "") + ".";
    }

    /** What it is, and what was read last. */
    private static String known(MachineRow row) {
        DriveAssessment drive = row.drive();
        List<String> parts = new ArrayList<>();
        parts.add(row.assessment().machine().model());
        parts.add(row.assessment().machine().assetTag() == null ? null : "asset tag " + row.assessment().machine().assetTag());
        parts.add(drive == null ? null : "drive " + OwnersWords.name(drive) + ", serial " + drive.latest().drive().serial());
        parts.add(drive == null || drive.wear().consumedPercent() == null ? null : Wording.number(drive.wear().consumedPercent(), 0) + " % of its rating written");
        parts.add(drive == null || drive.percentageUsed() == null ? null : "by its controller " + Health.usedInWords(drive.percentageUsed()) + " used");
        LocalDate seen = Wording.day(row.assessment().lastSeenAt());
        parts.add(seen == null ? "no report" : "last report " + seen);
        return Wording.sentenceCase(parts.stream().filter(part -> part != null).collect(Collectors.joining("; "))) + ".";
    }

    /** Those whose owners are to be spoken to. */
    DomContent owners() {
        DrivesToCheck doubts = DrivesToCheck.of(result.problems());
        List<MachineRow> rows = MachineRow.of(result.customersMachines()).stream().filter(row -> row.standing().compareTo(Standing.WATCH) <= 0)
            .sorted(CustomersSummary.mostPressingFirst(result)).toList();
        String left = (rows.size() <= MOST_MACHINES ? "" : "The worst " + MOST_MACHINES + " of " + rows.size() + " are shown. ") + "The other machines are in " + SweepWriter.MACHINES_CSV + ".";
        return finder("customers-machines", "Customers' machines whose owners to speak to; the most pressing first", left, false, OF_OWNERS, rows.stream().limit(MOST_MACHINES).map(row -> row(row, List.of(
            plain(0, OF_OWNERS.get(0), words(row.machineId()), row.standing()), cell(words(row.assessment().machine().site()), ""), cell(words(row.assessment().machine().model()), ""),
            plain(3, OF_OWNERS.get(3), row.standing().label(), row.standing()), cell(ShortWords.why(WorkRow.nothing(row), result.asOf()), ""),
            cell(row.drive() == null ? "" : OwnersWords.when(row.drive(), doubts, result.asOf()), "")))).toList());
    }

    /** The controls are hidden until the script works them. */
    private static DomContent finder(String id, String caption, String left, boolean hasOthers, List<String> headings, List<TrTag> rows) {
        return div(left.isEmpty() ? null : p(left),
            div(label(text("Search "), input().withType("search")), choice("Site", "site"), choice("Laptop model", "laptop"), choice("Drive model", "drive"), choice("Standing", "standing"),
                hasOthers ? label(input().withType("checkbox"), text(" all machines, also those that need nothing")) : null,
                button("Reset").withType("button"), p().attr("role", "status")).withClass("finder").attr("role", "search").attr("aria-label", caption).attr("data-table", id).attr("hidden"),
            table(caption(caption), thead(tr(each(headings, heading -> th(heading).attr("scope", "col").attr("role", "columnheader"))).attr("role", "row")).attr("role", "rowgroup"),
                tbody(each(rows, row -> row)).attr("role", "rowgroup")).withId(id).withClass("machines").attr("role", "table"));
    }

    private static DomContent choice(String name, String by) {
        return label(text(name + " "), select(option("all").withValue("")).attr("data-by", by));
    }
}
