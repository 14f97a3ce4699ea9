package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.util.AreaReference;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.wearledger.budget.BudgetFacts;
import org.wearledger.budget.Budgets;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Crossing;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.FleetModel;
import org.wearledger.model.Forecast;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MoneySettings;
import org.wearledger.model.Price;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;

/**
 * Something is changed in the workbook of one fleet, and the same at the program: both are to give the same figures. Invented, with boards, drives, an old machine,
 * one with a refresh date and a warranty claim.
 *
 * @param inTheWorkbook what somebody types
 * @param atTheProgram the same for a new sweep
 */
record Repricing(String name, Typing inTheWorkbook, UnaryOperator<Plan> atTheProgram) {
    private static final FleetModel FLEET = new FleetModel(2.5, 3, 0.03, 0.15, true, 30, 0.2, 0);
    private static final int MACHINES = 24;
    private static byte[] first;

    interface Typing {
        void into(XSSFWorkbook book);
    }

    /** What a budget is drawn up from. */
    record Plan(List<Price> prices, List<Decision> decisions, SweepSettings sweep, BudgetSettings settings) {
        static Plan first() {
            return new Plan(List.of(price("drive 256 GB", "39.00", "EUR", Price.Terms.NONE), price("board", "410.00", "EUR", Price.Terms.NONE), price("machine", "890.00", "USD",
                new Price.Terms(new BigDecimal("0.9"), 1, 0, null, 0, "0650", "capex"))), List.of(), SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        }

        Plan with(String item, UnaryOperator<Price> change) {
            return new Plan(prices.stream().map(price -> price.item().equals(item) ? change.apply(price) : price).toList(), decisions, sweep, settings);
        }

        Plan with(BudgetSettings other) {
            return new Plan(prices, decisions, sweep, other);
        }

        Plan with(UnaryOperator<MoneySettings> money) {
            return with(settings.with(money.apply(settings.money())));
        }

        Plan with(Decision... others) {
            return new Plan(prices, List.of(others), sweep, settings);
        }

        Plan with(SweepSettings other) {
            return new Plan(prices, decisions, other, settings);
        }

        Budget budget() {
            List<MachineAssessment> machines = machines();
            Map<DriveId, LocalDate> claims = Map.of(machines.get(2).activeDrives().get(0).id(), LocalDate.of(2025, 5, 1), machines.get(3).activeDrives().get(0).id(), LocalDate.of(2027, 1, 1));
            return Budgets.of(machines, FLEET, new BudgetFacts(prices, Decisions.of(decisions, machines, Sweeps.AS_OF), claims, Map.of()), Sweeps.AS_OF, sweep, settings);
        }

        SweepResult result() {
            SweepResult r = Sweeps.small();
            return Sweeps.with(r, List.of(), budget());
        }
    }

    static Price price(String item, String unitPrice, String currency, Price.Terms terms) {
        return new Price(item, currency, new BigDecimal(unitPrice), new BigDecimal("45.00"), new BigDecimal("3.50"), "Invented Supplies", LocalDate.of(2024, 12, 2), terms);
    }

    /** Every second one is soldered; the first is past its rating, each other has more left than the one before. */
    static List<MachineAssessment> machines() {
        return IntStream.range(0, MACHINES).mapToObj(i -> {
            DriveAssessment d = Sweeps.drive("KX-" + i, i == 1 ? Standing.URGENT : i < 4 ? Standing.PAST_RATING : Standing.WATCH, i < 4 ? 160 : 100, 80, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("test"));
            Forecast forecast = new Forecast(null, null, null, 0.5, 0.1, 0.2, 0.4, 0.8, Sweeps.AS_OF.plusYears(9), "test",
                new Crossing(3 + 2.5 * 20, 0.03 + 2.0, List.of(0.1 + 0.06 * i), Sweeps.COLLECTED));
            DriveAssessment drive = new DriveAssessment(d.id(), d.latest(), d.seen(), d.wear(), d.pace(), new DriveAssessment.Outlook(d.outlook().projection(), i < 4 ? null : forecast, null),
                d.standing(), d.reason());
            Machine machine = new Machine(String.format("LT-%02d", i), "A-" + i, i % 3 == 0 ? "North" : "South", "CC-" + i % 4, "Plover 14", 8L << 30, null, LocalDate.of(2019 + i % 5, 3, 1), null, null,
                i == 7 ? LocalDate.of(2025, 4, 1) : null, i == 9 ? LocalDate.of(2025, 4, 1) : null);
            return new MachineAssessment(machine, i % 2 == 0 ? Attachment.SOLDERED : Attachment.SOCKETED, List.of(drive), drive.standing(), "test", Sweeps.COLLECTED, true, null, null, true);
        }).toList();
    }

    /** The twelve, and what else may be typed. */
    static List<Repricing> all() {
        LocalDate day = Sweeps.AS_OF;
        return List.of(
            new Repricing("price of a board", item("board", 1, 412.34), plan -> plan.with("board", p -> new Price(p.item(), p.currency(), new BigDecimal("412.34"), p.labour(), p.disposalFee(), p.supplier(), p.priceDate()))),
            new Repricing("stock on hand", item("drive 256 GB", 8, 2), plan -> plan.with("drive 256 GB", p -> terms(p, new Price.Terms(null, 1, 0, null, 2, null, null)))),
            new Repricing("VAT", named("VatPercent", 19), plan -> plan.with(m -> new MoneySettings(m.machineShare(), m.machineShareFrom(), m.refreshShare(), m.refreshAgeYears(), m.warrantyShare(), 1, 19, null))),
            new Repricing("reject", line("LT-01", 6, "reject"), plan -> plan.with(new Decision("LT-01", Decision.State.REJECTED, day, null, null, null, null))),
            new Repricing("defer", line("LT-02", 6, "defer").and(line("LT-02", 7, "2025-Q4")), plan -> plan.with(new Decision("LT-02", Decision.State.DEFERRED, day, LocalDate.of(2025, 9, 30), null, null, null))),
            new Repricing("defer an urgent one", line("LT-01", 6, "defer").and(line("LT-01", 7, "2025-Q3")), plan -> plan.with(new Decision("LT-01", Decision.State.DEFERRED, day, LocalDate.of(2025, 6, 30), null, null, null))),
            new Repricing("share of machines", named("MachineShare", 0.35), plan -> plan.with(m -> m.withMachineShare(0.35, BudgetSettings.RateSource.GIVEN))),
            new Repricing("refresh age", named("RefreshAge", 4.5), plan -> plan.with(m -> new MoneySettings(m.machineShare(), m.machineShareFrom(), m.refreshShare(), 4.5, m.warrantyShare(), 1, 0, null))),
            new Repricing("exchange rate", assumption("1 USD in EUR", 0.93), plan -> plan.with("machine", p -> terms(p, new Price.Terms(new BigDecimal("0.93"), 1, 0, null, 0, "0650", "capex")))),
            new Repricing("pack size", item("drive 256 GB", 5, 4), plan -> plan.with("drive 256 GB", p -> terms(p, new Price.Terms(null, 4, 0, null, 0, null, null)))),
            new Repricing("price break", item("board", 6, 2).and(item("board", 7, 380)), plan -> plan.with("board", p -> terms(p, new Price.Terms(null, 1, 2, new BigDecimal("380"), 0, null, null)))),
            new Repricing("lead time", named("LeadTimeDays", 75), plan -> plan.with(new SweepSettings(null, 75, 45, plan.sweep().method(), 0.5, 0.1, plan.sweep().ownership()))),
            new Repricing("failure rate", named("FailuresPerMachineYear", 0.035), plan -> plan.with(plan.settings().withFailures(0.035, BudgetSettings.RateSource.GIVEN))),
            new Repricing("warranty share", named("WarrantyShare", 0.8), plan -> plan.with(m -> new MoneySettings(m.machineShare(), m.machineShareFrom(), m.refreshShare(), m.refreshAgeYears(), 0.8, 1, 0, null))),
            new Repricing("refresh share", named("RefreshShare", 0.5), plan -> plan.with(m -> new MoneySettings(m.machineShare(), m.machineShareFrom(), 0.5, m.refreshAgeYears(), m.warrantyShare(), 1, 0, null))));
    }

    private static Price terms(Price p, Price.Terms terms) {
        return new Price(p.item(), p.currency(), p.unitPrice(), p.labour(), p.disposalFee(), p.supplier(), p.priceDate(), terms);
    }

    /** Typing that can be followed by more. */
    interface Step extends Typing {
        default Step and(Typing next) {
            return book -> {
                into(book);
                next.into(book);
            };
        }
    }

    /** Left of the cell that formulas use stands the one to type in. */
    private static Step named(String name, double value) {
        return book -> {
            CellReference used = new AreaReference(book.getName(name).getRefersToFormula(), book.getSpreadsheetVersion()).getFirstCell();
            book.getSheet(used.getSheetName()).getRow(used.getRow()).getCell(used.getCol() - 1).setCellValue(value);
        };
    }

    private static Step assumption(String label, double value) {
        return book -> row(book.getSheet("Assumptions"), label).getCell(1).setCellValue(value);
    }

    private static Step item(String item, int column, double value) {
        return book -> row(book.getSheet("Assumptions"), item).getCell(column).setCellValue(value);
    }

    private static Step line(String machine, int column, String word) {
        return book -> {
            Cell cell = row(book.getSheet("Purchases"), machine).getCell(column, Row.MissingCellPolicy.CREATE_NULL_AS_BLANK);
            // A text inside the cell's own element stays in front of one that is set.
            cell.setBlank();
            cell.setCellValue(word);
        };
    }

    static Row row(Sheet sheet, String label) {
        for (Row row : sheet) {
            if (row.getCell(0) != null && row.getCell(0).getCellType() == CellType.STRING && row.getCell(0).getStringCellValue().equals(label)) {
                return row;
            }
        }
        throw new AssertionError("no row " + label + " on " + sheet.getSheetName());
    }

    /** The workbook of the first plan, written once. */
    static XSSFWorkbook first() throws IOException {
        if (first == null) {
            first = written(Plan.first().result());
        }
        return new XSSFWorkbook(new ByteArrayInputStream(first));
    }

    static XSSFWorkbook workbook(SweepResult result) throws IOException {
        return new XSSFWorkbook(new ByteArrayInputStream(written(result)));
    }

    private static byte[] written(SweepResult result) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, Integer.MAX_VALUE);
        return out.toByteArray();
    }

    /** The workbook of the first plan, with what is typed. */
    XSSFWorkbook typed() throws IOException {
        XSSFWorkbook book = first();
        inTheWorkbook.into(book);
        return book;
    }

    /** Every figure of every period, as the sheet has it. */
    static List<String> figures(XSSFWorkbook book) {
        Sheet sheet = book.getSheet("Budget figures");
        List<String> headings = new ArrayList<>();
        sheet.getRow(0).forEach(cell -> headings.add(cell.getStringCellValue()));
        List<String> figures = new ArrayList<>();
        for (int i = 1; i <= sheet.getLastRowNum(); i++) {
            for (int column = 0; column < headings.size(); column++) {
                if (!headings.get(column).contains("as swept") && !headings.get(column).startsWith("Changed since")) {
                    figures.add(sheet.getRow(i).getCell(0).getStringCellValue() + " | " + headings.get(column) + " | " + text(sheet.getRow(i).getCell(column)));
                }
            }
        }
        return figures;
    }

    static String text(Cell cell) {
        return cell == null ? "" : cell.getCellType() == CellType.NUMERIC || cell.getCellType() == CellType.FORMULA && cell.getCachedFormulaResultType() == CellType.NUMERIC
            ? String.format(java.util.Locale.ROOT, "%.2f", cell.getNumericCellValue() + 0.0) : cell.getStringCellValue();
    }

    /** The workbook that was worked out again says what the program says. */
    void assertAsTheProgram(XSSFWorkbook again) throws IOException {
        try (XSSFWorkbook anew = workbook(atTheProgram.apply(Plan.first()).result()); XSSFWorkbook before = first()) {
            List<String> is = figures(again);
            List<String> wanted = figures(anew);
            assertThat(is).as(name).hasSameSizeAs(wanted);
            assertThat(IntStream.range(0, is.size()).filter(i -> !is.get(i).equals(wanted.get(i))).mapToObj(i -> is.get(i) + ", by the program " + wanted.get(i))).as(name).isEmpty();
            if (!name.equals("lead time")) {
                assertThat(figures(again)).as("what is typed changes something: " + name).isNotEqualTo(figures(before));
            }
            assertThat(page(again)).as(name).containsAll(page(anew).stream().filter(row -> !row.startsWith("As swept") && !row.startsWith("Put off: ") && !row.endsWith("option of the sweep")).collect(Collectors.toList()));
            assertThat(text(row(again.getSheet("Budget"), "Check: cost centres, quarters and parts agree").getCell(1))).isEqualTo("yes, to the cent");
            assertThat(column(again, "Order by")).as(name).isEqualTo(column(anew, "Order by"));
        }
    }

    private static List<String> page(XSSFWorkbook book) {
        List<String> rows = new ArrayList<>();
        book.getSheet("Budget").forEach(row -> {
            List<String> cells = new ArrayList<>();
            row.forEach(cell -> cells.add(text(cell)));
            rows.add(String.join(" | ", cells));
        });
        return rows;
    }

    private static List<String> column(XSSFWorkbook book, String heading) {
        Sheet sheet = book.getSheet("Purchases");
        int column = 0;
        while (!sheet.getRow(0).getCell(column).getStringCellValue().equals(heading)) {
            column++;
        }
        List<String> cells = new ArrayList<>();
        for (int i = 1; i <= sheet.getLastRowNum(); i++) {
            cells.add(text(sheet.getRow(i).getCell(column)));
        }
        return cells;
    }

    static List<BudgetPeriod> quarters(Budget budget) {
        return budget.quarters().subList(0, budget.settings().quarters());
    }
}
