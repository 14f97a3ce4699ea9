package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Price;
import org.wearledger.model.Repair;
import org.wearledger.model.Repair.Reason;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.RepairSummary.Count;
import org.wearledger.model.RepairSummary.DeadDrives;
import org.wearledger.model.RepairSummary.StockNeed;

class RepairsTest {
    /** The month in which the fiscal year begins. */
    private static final BudgetSettings APRIL = new BudgetSettings(8, 4, 14, 0.5, 0.25, 0.01, null, null, BudgetSettings.Unplanned.unknown());
    private static final DeadDrives NONE = new DeadDrives(0, 0, 0, null);

    private static Repair repair(String ticket, String site, String date, Reason reason, String action, String cost) {
        return new Repair(ticket, "LT-1", null, site, LocalDate.parse(date), reason, action, cost == null ? null : new BigDecimal(cost));
    }

    private static RepairSummary summary(Repair... repairs) {
        return Repairs.summary(List.of(repairs), 2, NONE, new Repairs.Places(Map.of("LT-1", "Harbour"), Map.of("LT-1", "Torvane 14")), List.of(new Price("Drive 512 GB", "EUR", BigDecimal.TEN, null, null, null, null)),
            LocalDate.of(2025, 6, 30), APRIL);
    }

    /** A ticket of two rows is one repair; the fiscal year begins in April. First what answers a question by itself, then its parts. */
    @Test
    void costsAddUpByReasonShopAndQuarter() {
        RepairSummary repairs = summary(repair("R-2", "North", "2025-04-01", Reason.DEAD_DRIVE, "drive 512 GB", "103.50"), repair("r-2", "North", "2025-04-02", Reason.DEAD_DRIVE, null, null),
            repair("R-1", null, "2025-03-31", Reason.SUPPLY_CIRCUIT, null, "20.25"), repair("R-3", null, "2025-04-01", Reason.WORN, null, "1"));
        assertThat(repairs.from()).isEqualTo(LocalDate.of(2025, 1, 1));
        assertThat(repairs.later()).isEqualTo(2);
        assertThat(repairs.counts()).containsExactly(new Count(null, Reason.WORN, null, 1, new BigDecimal("1.00"), 0), new Count(null, Reason.DEAD_DRIVE, null, 1, new BigDecimal("103.50"), 1),
            new Count(null, Reason.SUPPLY_CIRCUIT, null, 1, new BigDecimal("20.25"), 0), new Count(null, null, "Harbour", 2, new BigDecimal("21.25"), 0),
            new Count(null, null, "North", 1, new BigDecimal("103.50"), 1), new Count("FY2025-Q4", null, null, 1, new BigDecimal("20.25"), 0),
            new Count("FY2026-Q1", null, null, 2, new BigDecimal("104.50"), 1), new Count("FY2025-Q4", Reason.SUPPLY_CIRCUIT, null, 1, new BigDecimal("20.25"), 0),
            new Count("FY2026-Q1", Reason.WORN, null, 1, new BigDecimal("1.00"), 0), new Count("FY2026-Q1", Reason.DEAD_DRIVE, null, 1, new BigDecimal("103.50"), 1),
            new Count(null, Reason.WORN, "Harbour", 1, new BigDecimal("1.00"), 0), new Count(null, Reason.SUPPLY_CIRCUIT, "Harbour", 1, new BigDecimal("20.25"), 0), new Count(null, Reason.DEAD_DRIVE, "North", 1, new BigDecimal("103.50"), 1));
    }

    /** By the shop of the repair, else by the machine's; two quarters have passed since the first. What is no item is not stocked. Of all shops together a board is counted by the machine's model too. */
    @Test
    void stockIsWhatWasFitted() {
        RepairSummary repairs = summary(repair("R-1", "North", "2025-01-02", Reason.WORN, "drive 512 gb", null), repair("R-2", "North", "2025-02-02", Reason.WORN, "Drive 512 GB", null),
            repair("R-3", null, "2025-03-02", Reason.DEAD_DRIVE, "board", null), repair("R-4", "North", "2025-04-02", Reason.OTHER_FAULT, "cleaned", null));
        double quarters = 181 / 91.3125;
        assertThat(repairs.stock()).containsExactly(new StockNeed(null, "Drive 512 GB", null, true, 2, quarters, 0, 1, 3), new StockNeed(null, "board", null, false, 1, quarters, 0, 0, 2),
            new StockNeed(null, "board", "Torvane 14", false, 1, quarters, 0, 0, 2), new StockNeed("Harbour", "board", null, false, 1, quarters, 0, 0, 2),
            new StockNeed("North", "Drive 512 GB", null, true, 2, quarters, 0, 1, 3));
    }

    /** As the comparison of models folds them. */
    @Test
    void boardsOfOneModelAreCountedTogetherHoweverItIsSpelt() {
        List<Repair> boards = List.of(new Repair("R-1", "LT-1", null, null, LocalDate.of(2025, 1, 2), Reason.DEAD_DRIVE, "board", null), new Repair("R-2", "LT-2", null, null, LocalDate.of(2025, 1, 3), Reason.DEAD_DRIVE, "board", null));
        RepairSummary repairs = Repairs.summary(boards, 0, NONE, new Repairs.Places(Map.of(), Map.of("LT-1", "TORVANE 14", "LT-2", "Torvane  14")), List.of(), LocalDate.of(2025, 6, 30), APRIL);
        assertThat(repairs.stock()).filteredOn(need -> need.machineModel() != null).singleElement().satisfies(need -> {
            assertThat(need.machineModel()).isEqualTo("TORVANE 14");
            assertThat(need.fitted()).isEqualTo(2);
        });
    }

    /** A drive under the price of any drive, a board under that of its model. */
    @ParameterizedTest
    @CsvSource({"drive 256 GB, Drive 512 GB, false", "drive 256 GB, drive, true", "board, board Torvane 14, true", "board, board Torvane 15, false", "machine, board, false"})
    void whatThePriceListLacksIsNamed(String fitted, String priced, boolean inList) {
        RepairSummary repairs = Repairs.summary(List.of(repair("R-1", "North", "2025-01-02", Reason.DEAD_DRIVE, fitted, null)), 0, NONE,
            new Repairs.Places(Map.of(), Map.of("LT-1", "Torvane 14")), List.of(new Price(priced, "EUR", BigDecimal.TEN, null, null, null, null)), LocalDate.of(2025, 6, 30), APRIL);
        assertThat(repairs.stock().stream().filter(need -> need.site() == null).reduce((one, later) -> later).orElseThrow().inPriceList()).isEqualTo(inList);
    }

    @Test
    void withoutRepairsThereIsNothingToTell() {
        assertThat(summary().isEmpty()).isTrue();
    }
}
