package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Slips of the hand in a mapping; a report is told of in the same words. */
class JsonFaultTest {
    @TempDir
    Path folder;

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        {"fields": {"machine.id": "x",}}   | line 1, column 31: '}' where a name in double quotation marks is expected; the comma before it is one too many
        {"notReported": ["x",]}            | line 1, column 22: ']' where a value is expected; is there a comma too many, or a value missing?
        {"decimal": }                      | line 1, column 13: '}' where a value is expected; is there a comma too many, or a value missing?
        {"decimal": ,}                     | line 1, column 13: ',' where a value is expected: a text in double quotation marks, a number, true, false, null, { or [
        {'decimal': ","}                   | line 1, column 2: ''' where a name in double quotation marks is expected
        {decimal: ","}                     | line 1, column 2: 'd' where a name in double quotation marks is expected
        {"a" "x"}                          | line 1, column 6: '"' where the colon between a name and its value is expected
        {"a": x}                           | line 1, column 7: 'x' is no value; expected is a text in double quotation marks, a number, true, false or null
        {"a": NaN}                         | line 1, column 10: 'NaN' is no value; expected is a text in double quotation marks, a number, true, false or null
        {"a": ["x"}                        | line 1, column 11: '}' closes a bracket that is not open, or that another one inside leaves open
        {"a": "x                           | line 1, column 9: the text ends within quotation marks; the closing one is expected
        {"a": {"b": "x"}                   | line 1, column 17: the text ends too soon; a closing bracket or a value is expected
        {"a": "C:\\x"}                      | line 1, column 11: a backslash before 'x'; two are expected for one backslash
        {"a": /* b */ "x"}                 | line 1, column 7: '/', a comment, which JSON does not have
        {"a": 1, "a": 2}                   | line 1, column 13: the field 'a' stands twice; each is expected once
        {"a": 01}                          | line 1, column 8: a number with leading zeros; write it without them, or in quotation marks
        """)
    void whereAndWhatIsExpected(String json, String words) throws IOException {
        Path mapping = Files.writeString(folder.resolve("mapping.json"), json.strip());
        assertThatThrownBy(() -> FieldMapping.load(mapping)).isInstanceOf(InputMissingException.class).hasMessage(mapping + ": broken JSON at " + words);
    }

    /** It is looked for where the next name stands, and belongs behind what stands before. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', quoteCharacter = '\0', textBlock = """
        {"a": "x" "b": "y"}             | line 1, behind {"a": "x"
        {"a": "x"~ "b": "y"}            | line 1, behind {"a": "x"
        {"a": "x",~~ "b": "y"~~ "c": 1} | line 3, behind "b": "y"
        {"a": ["x" "y"]}                | line 1, behind {"a": ["x"
        {"fields": {"machine.id": "Host", "drive.serial": "Serial"} "decimal": ","} | line 1, behind ...e.id": "Host", "drive.serial": "Serial"}
        """)
    void whereACommaIsMissing(String json, String place) throws IOException {
        Path mapping = Files.writeString(folder.resolve("mapping.json"), json.strip().replace('~', '\n'));
        assertThatThrownBy(() -> FieldMapping.load(mapping)).isInstanceOf(InputMissingException.class).hasMessage(mapping + ": put a comma into " + place);
    }
}
