package org.wearledger.report;

import java.nio.file.Path;
import java.util.stream.Stream;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import org.wearledger.cli.Recalculation;

/** {@code mvn -Poffice verify}: a real office program works out what {@link RepricedBudgetTest} has POI work out. */
@EnabledIfSystemProperty(named = "soffice", matches = ".+")
class RepricedBudgetIT {
    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> asTheProgram() {
        return Repricing.all().stream().map(change -> DynamicTest.dynamicTest(change.name(), () -> {
            try (XSSFWorkbook again = Recalculation.byOffice(change.typed(), folder.resolve(change.name()))) {
                change.assertAsTheProgram(again);
            }
        }));
    }
}
