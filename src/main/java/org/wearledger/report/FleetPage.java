package org.wearledger.report;

import static j2html.TagCreator.*;

import j2html.tags.DomContent;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.ModelSummary;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.TrendQuarter;

/** The sweep as one page for a browser: counts, the table for IT, the trend, models and money. It fetches nothing, and reads without its script. */
final class FleetPage {
    private static final int MOST_MODELS = 40;
    private static final int LEAST_QUARTERS = 2;

    private record Section(String id, String heading, List<DomContent> content) {
    }

    private final SweepResult result;
    private final Overview overview;
    private final FleetTable machines;
    private final List<Section> sections = new ArrayList<>();

    private FleetPage(SweepResult result) {
        this.result = result;
        overview = new Overview(result);
        machines = new FleetTable(result);
    }

    static String of(SweepResult result) {
        return new FleetPage(result).page();
    }

    private String page() {
        boolean isOfAChain = CustomersSummary.isOfAChain(result);
        if (isOfAChain) {
            customers("What machines and repairs say");
        }
        if (!result.ownMachines().isEmpty() || !isOfAChain) {
            own();
        }
        if (!isOfAChain && !result.customersMachines().isEmpty()) {
            customers("Customers' machines");
        }
        if (!isOfAChain) {
            trend();
        }
        money();
        models();
        List<String> read = overview.notes();
        add("read", "What was read", ul(each(read, note -> li(note))));
        add("care", "Take care", ul(each(MethodNotes.CAUTIONS, caution -> li(caution))));
        return PageFrame.of("Fleet wear" + (result.asOf() == null ? "" : ", as of " + result.asOf()), machinesInWords(), main(counts(isOfAChain), settleFirst(),
                nav(each(sections, section -> a(section.heading).withHref("#" + section.id))).attr("aria-label", "On this page"),
                each(sections, section -> section(h2(section.heading), each(section.content, part -> part)).withId(section.id))),
            "Wearledger " + result.version() + ". TB = 1,000,000,000,000 bytes. Reaching the rating is not failure, and drives often fail without warning: back up always.", "fleet.js");
    }

    private void add(String id, String heading, DomContent... content) {
        sections.add(new Section(id, heading, Arrays.stream(content).filter(part -> part != null).toList()));
    }

    private String machinesInWords() {
        return result.machines().isEmpty() ? "No machine was seen." : result.customersMachines().isEmpty() ? Wording.count(result.machines().size(), "machine") + "."
            : Wording.count(result.ownMachines().size(), "own machine") + ", " + Wording.count(result.customersMachines().size(), "customer's machine").replace("customer's machines", "customers' machines") + ".";
    }

    /** Of those that the page is about first; under it the money in one line. */
    private DomContent counts(boolean isOfAChain) {
        List<MachineAssessment> counted = isOfAChain ? result.customersMachines() : result.ownMachines();
        Map<Standing, Long> counts = Overview.byStanding(counted);
        String money = isOfAChain ? "" : overview.money();
        return div(counted.isEmpty() ? null : ul(each(counts.entrySet(), count -> li(strong(count.getValue().toString()), text(" "), span(count.getKey().label()).withClass(FleetTable.shape(count.getKey())))))
                .withClass("counts").attr("aria-label", isOfAChain ? "Customers' machines by standing" : "Machines by standing"),
            money.isEmpty() ? null : p(strong("Money"), text(" " + money + ".")));
    }

    private DomContent settleFirst() {
        List<String> warnings = overview.warnings();
        return warnings.isEmpty() ? null : div(p(strong("Settle this first")), ul(each(warnings, warning -> li(warning)))).withClass("standing");
    }

    private void own() {
        add("to-do", "To do", p(overview.machines() == 0 ? "No machine needs anything now." : Wording.count(overview.machines(), "machine") + (overview.machines() == 1 ? " needs" : " need")
            + " something. Open what is to do for its steps and what was seen."), result.ownMachines().isEmpty() ? null : machines.own(overview));
    }

    private void customers(String heading) {
        List<MethodNotes.Note> answers = new ArrayList<>(CustomersSummary.isOfAChain(result) ? CustomersSummary.answers(result) : CustomerCounts.notes(result));
        add("customers", heading, dl(each(answers, note -> each(dt(note.topic()), dd(note.text())))));
        add("owners", "Owners to tell", machines.owners());
    }

    private void trend() {
        List<TrendQuarter> quarters = result.fleet().trend().stream().filter(quarter -> quarter.medianConsumedPercent() != null).toList();
        if (quarters.size() < LEAST_QUARTERS) {
            return;
        }
        LocalDate asOf = result.asOf();
        String caption = "Consumed endurance of the drives read, and machines past their rating by either measure, at the end of each quarter.";
        List<List<String>> rows = new ArrayList<>(List.of(List.of("Up to", "Drives", "Median, % of rated", "Worst tenth is above, %", "Machines past rating")));
        quarters.forEach(quarter -> rows.add(List.of(FleetTrendPicture.name(quarter, asOf), Long.toString(quarter.drives()), Wording.number(quarter.medianConsumedPercent(), 1),
            Wording.number(quarter.ninetiethConsumedPercent(), 1), Integer.toString(quarter.machinesPastRating()))));
        add("trend", "Trend", figure(rawHtml(FleetTrendPicture.svg(quarters, asOf, caption + " The figures stand below it.")), figcaption(caption)),
            details(summary("The figures of the picture"), PageTable.of("By quarter", rows, 1, 5)));
    }

    private void models() {
        List<DomContent> parts = new ArrayList<>();
        compared("Laptop models: what they write", SweepWriter.MACHINE_MODELS_CSV, ModelTables.compared(result.fleet().machineModels()), parts);
        drives(parts);
        compared((result.isOfCustomersAlone() ? "Shops" : "Sites") + ": what their machines write", SweepWriter.SITES_CSV, ModelTables.compared(result.fleet().sites()), parts);
        if (!parts.isEmpty()) {
            parts.add(0, p("Where intervals overlap, do not rely on the order. " + Wording.sentenceCase(ModelsText.SELECTION) + "."));
            add("models", "Models compared", parts.toArray(DomContent[]::new));
        }
    }

    private static void compared(String caption, String file, List<ComparedGroup> groups, List<DomContent> parts) {
        if (!groups.isEmpty()) {
            List<List<String>> rows = new ArrayList<>(List.of(List.of("Name", "Drives", "Times the typical", "95 % interval", "Result")));
            groups.stream().limit(MOST_MODELS).forEach(group -> rows.add(List.of(VisibleText.of(group.name()), Integer.toString(group.best().drives()), Wording.number(group.best().adjusted(), 2),
                interval(group.best().interval95().low(), group.best().interval95().high(), 2), group.separation().label())));
            parts.add(PageTable.of(caption + " per " + ModelTables.measure(groups) + ", among machines alike" + more(groups.size(), file), rows, 1, 4));
        }
    }

    private void drives(List<DomContent> parts) {
        List<ModelSummary> models = ModelsText.rated(result);
        if (!models.isEmpty()) {
            parts.add(PageTable.of("Drive models: % of the rated endurance written in a year, with 95 % interval" + more(models.size(), SweepWriter.MODELS_CSV), ModelsText.driveTable(models, MOST_MODELS), 1, 5));
        }
    }

    private static String interval(double low, double high, int places) {
        return Wording.number(low, places) + " to " + Wording.number(high, places);
    }

    private static String more(int models, String file) {
        return models <= MOST_MODELS ? "" : "; " + (models - MOST_MODELS) + " more in " + file;
    }

    private void money() {
        if (result.plan().budget() == null || result.plan().budget().currency().isEmpty()) {
            return;
        }
        List<List<String>> rows = new ArrayList<>(List.of(List.of("Quarter", "Replacements", "Plan", "Funding request", "Worst case")));
        result.plan().budget().quarters().forEach(period -> rows.add(List.of(period.label(), Integer.toString(period.named()), amount(period.plan()), amount(period.toAskFor()), worst(period))));
        add("money", "Money by quarter", PageTable.of("In " + result.plan().budget().currency() + "; " + SweepWriter.SWEEP_XLSX + " has how each is made up", rows, 1, 5));
    }

    private static String worst(BudgetPeriod period) {
        return period.isContingencyKnown() ? amount(period.cap()) : "prices missing";
    }

    private static String amount(BigDecimal amount) {
        return Wording.amount(amount, "");
    }
}
