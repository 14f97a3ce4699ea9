package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarrantyCheck;

/** The table for IT, below it the claims to make and what changed since an earlier sweep, so laid out that like stands below like. */
final class ToDoSheet {
    static final String NAME = CareTables.WORK;
    private static final String USER = "user";
    private static final String DECISION = "decision";
    private static final List<String> WORK = List.of("machineId", "site", USER, "standing", "why", "what", "byOn", "amount", DECISION, "link");
    private static final List<String> FOLDED = List.of("assetTag", "machineModel", "driveModel", "item");
    private static final List<String> CLAIMS = List.of("machineId", "site", "driveModel", "standing", "finding", "driveSerial", "driveEndsOn", "machineEndsOn");
    private static final List<String> CHANGES = List.of("machineId", "site", "item", "change", "before", "now", "costDelta");

    private final SweepResult result;
    private final RowLimit limit;
    private final Table<WorkRow> all;
    private final Table<WorkRow> shown;
    private final boolean hasUsers;
    private final boolean hasDecisions;

    /** @param money {@code null} without sheets of money */
    ToDoSheet(SweepResult result, RowLimit limit, MoneySheets money) {
        this.result = result;
        this.limit = limit;
        all = money == null ? CareTables.work(result) : money.following(CareTables.work(result));
        shown = limit.cut(all, work -> true);
        hasDecisions = all.rows().stream().anyMatch(work -> all.columns().get(all.indexOf(DECISION)).valueOf(work) != null);
        hasUsers = all.rows().stream().anyMatch(work -> work.row().assessment().machine().user() != null);
    }

    /** Columns that are empty throughout are left out. */
    private List<String> inView() {
        return WORK.stream().filter(column -> (hasUsers || !column.equals(USER)) && (hasDecisions || !column.equals(DECISION))).toList();
    }

    boolean isEmpty() {
        return all.rows().isEmpty();
    }

    Set<String> machines() {
        return shown.rows().stream().map(work -> work.row().machineId()).collect(Collectors.toSet());
    }

    /** @param hasRow whether a machine stands on the sheet of machines */
    void write(SheetWriter sheet, Predicate<String> hasRow) {
        limit.say(sheet, shown, all.rows().size(), "", SweepWriter.WORK_LIST_CSV);
        List<String> columns = new ArrayList<>(inView());
        int inView = columns.size();
        columns.addAll(FOLDED);
        sheet.dataSheet(shown.with(0, Column.link(MachinesSheet.NAME, work -> hasRow.test(work.row().machineId()))).showing(columns), work -> false, inView, inView);
        claims(sheet);
        changes(sheet);
        sheet.view(inView, inView);
    }

    private void claims(SheetWriter sheet) {
        Table<WarrantyCheck> claims = CareTables.warranties(result).only(check -> check.finding().isToBeAsked());
        if (!claims.rows().isEmpty()) {
            sheet.gap();
            sheet.above("Ask the maker first: warranty may pay for these");
            Table<WarrantyCheck> cut = limit.cut(claims, check -> true);
            limit.say(sheet, cut, claims.rows().size(), "", SweepWriter.WARRANTY_CSV);
            sheet.table(aligned(cut, CLAIMS, 2), check -> false);
        }
    }

    private void changes(SheetWriter sheet) {
        if (result.plan().comparison() != null) {
            sheet.gap();
            sheet.above("Changed since " + result.plan().comparison().with());
            sheet.table(aligned(limit.cut(CareTables.changes(result), change -> true), CHANGES, 2), change -> false);
        }
    }

    /** Without users' column the third of these goes to the end. */
    private <T> Table<T> aligned(Table<T> table, List<String> columns, int third) {
        List<String> order = new ArrayList<>(columns);
        if (!hasUsers) {
            order.add(order.remove(third));
        }
        return table.showing(order);
    }
}
