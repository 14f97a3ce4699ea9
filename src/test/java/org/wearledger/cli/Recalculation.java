package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.CellValue;
import org.apache.poi.ss.usermodel.FormulaEvaluator;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.ss.util.AreaReference;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;

/** Somebody changes cells of a workbook by name and has it worked out anew: by POI, or by an office program. */
public interface Recalculation {
    /** Has the workbook worked out again and gives it back with its results. */
    XSSFWorkbook of(XSSFWorkbook changed, Path folder) throws Exception;

    /** The evaluator of Apache POI. */
    static XSSFWorkbook byPoi(XSSFWorkbook changed, Path folder) {
        changed.getCreationHelper().createFormulaEvaluator().evaluateAll();
        return changed;
    }

    /** A LibreOffice at the path given by the system property {@code soffice}, told to work everything out when it loads. */
    static XSSFWorkbook byOffice(XSSFWorkbook changed, Path folder) throws Exception {
        Path in = Files.createDirectories(folder).resolve("changed.xlsx");
        try (OutputStream out = Files.newOutputStream(in)) {
            changed.write(out);
        }
        Path profile = Files.createDirectories(folder.resolve("profile/user"));
        Files.writeString(profile.resolve("registrymodifications.xcu"), """
            <?xml version="1.0" encoding="UTF-8"?>
            <oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" \
            xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
            <item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
            </oor:items>
            """);
        Path result = Files.createDirectories(folder.resolve("result"));
        Process office = new ProcessBuilder(System.getProperty("soffice"), "-env:UserInstallation=" + folder.resolve("profile").toUri(),
            "--headless", "--convert-to", "xlsx", "--outdir", result.toString(), in.toString()).redirectErrorStream(true)
            .redirectOutput(folder.resolve("office.log").toFile()).start();
        assertThat(office.waitFor(10, TimeUnit.MINUTES)).isTrue();
        return open(result.resolve("changed.xlsx"));
    }

    static XSSFWorkbook open(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return new XSSFWorkbook(in);
        }
    }

    /** The first cell of a defined name. */
    static Cell named(XSSFWorkbook book, String name) {
        CellReference first = new AreaReference(book.getName(name).getRefersToFormula(), book.getSpreadsheetVersion()).getFirstCell();
        return book.getSheet(first.getSheetName()).getRow(first.getRow()).getCell(first.getCol());
    }

    /** Every formula gives the result that was written beside it; amounts that are shown in cents may hide fractions of one. */
    static void assertResultsStandBesideTheFormulas(XSSFWorkbook book) {
        FormulaEvaluator evaluator = book.getCreationHelper().createFormulaEvaluator();
        int formulas = 0;
        for (Sheet sheet : book) {
            for (Row row : sheet) {
                for (Cell cell : row) {
                    if (cell.getCellType() != CellType.FORMULA) {
                        continue;
                    }
                    formulas++;
                    String where = sheet.getSheetName() + "!" + cell.getAddress() + " =" + cell.getCellFormula();
                    CellValue worked = evaluator.evaluate(cell);
                    if (worked.getCellType() == CellType.NUMERIC) {
                        assertThat(cell.getNumericCellValue()).as(where).isCloseTo(worked.getNumberValue(), org.assertj.core.api.Assertions.within(0.00501));
                    } else {
                        assertThat(worked.getCellType()).as(where).isEqualTo(CellType.STRING);
                        assertThat(cell.getStringCellValue()).as(where).isEqualTo(worked.getStringValue());
                    }
                }
            }
        }
        assertThat(formulas).isPositive();
    }
}
