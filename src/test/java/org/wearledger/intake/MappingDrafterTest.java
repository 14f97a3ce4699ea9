package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.MappingDraft;
import org.wearledger.model.MappingDraft.Field;

class MappingDrafterTest {
    @TempDir
    Path folder;

    private MappingDraft draft(String name, String text) throws IOException {
        return MappingDrafter.of(Files.writeString(folder.resolve(name), text));
    }

    private static String said(Field field) {
        return field.name() + " " + field.basis() + field.choices().stream().map(choice -> " " + choice.value() + "=" + choice.reads()).collect(Collectors.joining());
    }

    /** One column and what is made of it (sizes by exact fractions in Python): 118.4 TB are 231,250,000 data units, 130.2 TB are 118.4 TiB. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        Host writes           | 12.25 118.4       | health.dataUnitsWritten OPEN GB=231250 GiB=248303 TB=231250000 TiB=254262064
        Host writes (TB)      | 118.4             | health.dataUnitsWritten HEADING TB=231250000
        Host writes (TB)      | 118400            | health.dataUnitsWritten OPEN GB=231250000 GiB=248302797 MB=231250 MiB=242483 dataUnits=118400
        totalBytesWritten     | 118400000000000   | health.dataUnitsWritten HEADING bytes=231250000
        Data units written    | 231250000         | health.dataUnitsWritten HEADING dataUnits=231250000
        Host read (GiB)       | 640               | health.dataUnitsRead HEADING GiB=1342177
        Host write commands   | 5000000           | health.hostWriteCommands NONE
        TBW rated             | 150               |
        Wear %                | 61 7              | health.percentageUsed OPEN percent=61 percentRemaining=39
        Wear %                | 61 107            | health.percentageUsed VALUES percent=107
        Percentage used       | 61 %              | health.percentageUsed VALUES percent=61
        Remaining life        | 39 93             | health.percentageUsed VALUES percentRemaining=7
        Lebensdauer verbraucht| 0.61 0.07         | health.percentageUsed VALUES share=61
        Health status         | 61                |
        RAM GB                | 8 16              | machine.memoryBytes VALUES GiB=17179869184
        RAM GB                | 7.8 15.7          | machine.memoryBytes OPEN GB=15700000000 GiB=16857746637
        RAM (MB)              | 16384             | machine.memoryBytes VALUES MiB=17179869184
        Size                  | 256 512           | drive.capacityBytes VALUES GB=512000000000
        Size                  | 13.37             | drive.capacityBytes OPEN GB=13370000000 GiB=14355928187 KB=13370 KiB=13691 MB=13370000 MiB=14019461 TB=13370000000000 TiB=14700470463365 bytes=13 dataUnits=6845440 sectors=6845
        Size GB               | 238.47 931.51     | drive.capacityBytes VALUES GiB=1000201246474
        Capacity              | 256060514304      | drive.capacityBytes VALUES bytes=256060514304
        Temperature           | 38                | health.compositeTemperatureKelvin VALUES celsius=311
        Temperature           | 311               | health.compositeTemperatureKelvin VALUES kelvin=311
        Power on              | 3100              | health.powerOnHours OPEN days=74400 hours=3100 minutes=52
        Power-on hours        | 3100              | health.powerOnHours HEADING hours=3100
        Read on               | 06.01.2025.09:30  | collectedAt OPEN
        Read on               | 2025-01-06T09:30Z | collectedAt NONE
        Date                  | 06.01.2025        | collectedAt VALUES d.M.yyyy=2025-01-06
        Date                  | 03/04/2025        | collectedAt OPEN d/M/yyyy=2025-04-03 M/d/yyyy=2025-03-04
        Date                  | 03/04/2025 03/14/2025 | collectedAt VALUES M/d/yyyy=2025-03-04
        Timestamp             | 1736155800        | collectedAt VALUES epochSeconds=2025-01-06T09:30Z
        Purchase date         | 03/04/2021        |
        Disk serial           | VX000123          | drive.serial NONE
        Laptop serial         | Q7                |
        Seriennr.             | VX000123          | drive.serial NONE
        Gerät                 | PC-7              | machine.id NONE
        Gerätemodell          | Torvane 15        |
        Host                  | PC-7              | machine.id NONE
        Büro                  | Nord              | machine.site NONE
        Office version        | 16                |
        Stand                 | 06.01.2025        | collectedAt VALUES d.M.yyyy=2025-01-06
        First seen            | 2024-01-06        |
        Abnutzung %           | 61 107            | health.percentageUsed VALUES percent=107
        Used                  | 61 107            | health.percentageUsed VALUES percent=107
        Used space GB         | 61                |
        """)
    void aColumn(String heading, String values, String expected) throws IOException {
        MappingDraft draft = draft("a.csv", heading + "\tOther\n" + Arrays.stream(values.split(" (?!%)")).map(value -> value + "\tx\n").collect(Collectors.joining()));
        assertThat(draft.fields().stream().map(MappingDrafterTest::said).collect(Collectors.joining("; "))).isEqualTo(expected == null ? "" : expected);
    }

    /** An array of drives is no field of its machine. */
    @Test
    void recordsInsideOfRecordsAreFound() throws IOException {
        MappingDraft draft = draft("a.json", "{\"devices\": [{\"host\": \"PC-1\", \"lastContact\": 1736172300, \"disks\": [{\"name\": \"Velkan D2\", \"sn\": \"VX1\", \"lifeUsed\": 22}]}]}");
        assertThat(draft.within()).isEqualTo("/devices/disks");
        assertThat(draft.fields()).extracting(field -> field.name() + "=" + field.from()).containsExactly("collectedAt=lastContact", "machine.id=host", "drive.serial=sn", "drive.model=name", "health.percentageUsed=lifeUsed");
        assertThat(draft.lacking()).isEmpty();
        MappingDraft machines = draft("b.json", "{\"devices\": [{\"name\": \"PC-1\", \"serial\": \"VX1\"}]}");
        assertThat(machines.fields()).extracting(field -> field.name() + "=" + field.from()).containsExactly("machine.id=name", "drive.serial=serial");
    }

    /** By the course of what was written: 118 TB, then 124. In July and October 2024 it rises; were the day first, it would fall from July to August. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        07/08/2024 10/07/2024 | 118.4 124.2 | COURSE M/d/yyyy=2024-07-08
        07/08/2024 10/07/2024 | 124.2 118.4 | COURSE d/M/yyyy=2024-08-07
        07/08/2024 10/07/2024 | 118.4 118.4 | OPEN d/M/yyyy=2024-08-07 M/d/yyyy=2024-07-08
        07/08/2024 07/09/2024 | 118.4 124.2 | OPEN d/M/yyyy=2024-08-07 M/d/yyyy=2024-07-08
        """)
    void whatWasWrittenSettlesDayAndMonth(String days, String written, String expected) throws IOException {
        String[] day = days.split(" ");
        String[] total = written.split(" ");
        MappingDraft draft = draft("a.csv", "Date\tSerial\tWritten TB\n" + day[0] + "\tVX1\t" + total[0] + "\n" + day[1] + "\tVX1\t" + total[1] + "\n");
        assertThat(said(draft.fields().get(0))).isEqualTo("collectedAt " + expected);
    }

    @Test
    void columnsOfOneNameAreCounted() throws IOException {
        assertThat(draft("a.csv", "Serial,Model,Model\nVX1,A,A\nVX2,B,C\nVX3,D,\n").doubled()).containsOnly(Map.entry("Model", 1));
        assertThat(draft("b.csv", "Serial,Model\nVX1,A\n").doubled()).isEmpty();
    }

    /** Each heading holds one field, and what fits better goes first. */
    @Test
    void headingsAreShared() throws IOException {
        MappingDraft draft = draft("a.csv", "Disk,Disk no.,Computer,Computer model,Firmware,Drive serial\nVelkan D2,1,LT-1,Q,F,VX1\n");
        assertThat(draft.fields()).extracting(field -> field.name() + "=" + field.from()).containsExactly("machine.id=Computer", "machine.model=Computer model", "drive.serial=Drive serial",
            "drive.model=Disk", "drive.firmware=Firmware");
        assertThat(draft.notUsed()).containsExactly("Disk no.");
        assertThat(draft.lacking()).containsExactly("collectedAt");
    }

    @Test
    void aHeadingThatFitsAsWellIsTold() throws IOException {
        MappingDraft draft = draft("a.csv", "Serial A,Serial B\nVX1,VX2\n");
        assertThat(draft.fields()).singleElement().satisfies(field -> {
            assertThat(field.from()).isEqualTo("Serial A");
            assertThat(field.others()).containsExactly("Serial B");
        });
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        Written GB | 118,40 12,25    | decimal=,:118.40
        Written GB | 118.400,50 7,25 | decimal=,:118400.50
        Written KB | 231,250,000     | grouping=,:231250000
        Written GB | 118,400 12,250  | decimal=,:118.400 grouping=,:118400
        Written GB | 118.400 12.250  | decimal=.:118.400 grouping=.:118400
        Written TB | 118.4           |
        Written TB | 118.400 12.250  | decimal=.:118.400 not 118400
        Written TB | 118,400 12,250  | decimal=,:118.400 not 118400
        Written MB | 118,400 12,250  | grouping=,:118400 not 118.400
        Written    | 118,400 12,250  | decimal=,:118.400 grouping=,:118400
        """)
    void signsOfNumbers(String heading, String values, String expected) throws IOException {
        MappingDraft draft = draft("a.csv", heading + "\tOther\n" + values.replace(" ", "\tx\n") + "\tx\n");
        assertThat(draft.numbers().stream().map(sign -> sign.key() + "=" + sign.value() + ":" + sign.reads()
            + (sign.otherwise() == null ? "" : " not " + sign.otherwise())).collect(Collectors.joining(" "))).isEqualTo(expected == null ? "" : expected);
    }

    @Test
    void inJsonAPointerIsGiven() throws IOException {
        MappingDraft draft = draft("a.json", "[{\"host\": {\"name\": \"A\"}, \"disk\": {\"serialNumber\": \"VX1\", \"size/GB\": 256}, \"model\": \"Velkan D2\"}]");
        assertThat(draft.fields()).extracting(Field::from).containsExactly("/host/name", "/disk/serialNumber", "model", "/disk/size~1GB");
    }

    /** As the mapping that is read back takes them. */
    @Test
    void namesWithSlashesAndDotsLeadBack() throws IOException {
        assertThat(draft("a.csv", "/dev/serial,Other\nVX1,x\n").fields()).extracting(Field::from).containsExactly("/~1dev~1serial");
        assertThat(MappingDocument.load(Files.writeString(folder.resolve("m.js"), "{\"fields\": {\"drive.serial\": \"/~1dev~1serial\"}}"), "m.js").mappedNames()).containsKey("/dev/serial");
        String inside = "{\"all.of/it\": {\"de.vices\": [{\"hostname\": \"A\", \"serial\": \"VX1\"}, {\"hostname\": \"B\", \"serial\": \"VX2\"}]}}";
        MappingDraft draft = draft("b.json", inside);
        assertThat(draft.within()).isEqualTo("/all.of~1it/de.vices");
        assertThat(draft.fields()).extracting(Field::from).containsExactly("hostname", "serial");
        FieldMapping mapping = FieldMapping.load(Files.writeString(folder.resolve("r.js"), "{\"records\": \"/all.of~1it/de.vices\", \"fields\": {\"drive.serial\": \"serial\"}}"));
        assertThat(mapping.form().records()).containsExactly("all.of/it", "de.vices");
    }

    /** Thousands here, decimals there: no one form reads both. */
    @Test
    void columnsMayNeedDifferentFormsOfNumbers() throws IOException {
        MappingDraft draft = draft("a.csv", "Serial;Model;Computer;Date;Data units written;Percentage used\nS1;M1;PC1;2025-01-06T10:00:00Z;1.234.567;3.5\n");
        assertThat(draft.fields()).filteredOn(field -> field.name().startsWith("health.")).extracting(Field::sample).containsExactlyInAnyOrder("1.234.567", "3.5");
    }

    @Test
    void recordsMayLieInside() throws IOException {
        MappingDraft draft = draft("b.json", "{\"site\": \"North\", \"tags\": [{\"a\": 1}, {\"a\": 2}, {\"a\": 3}], \"devices\": [{\"hostname\": \"A\", \"serial\": \"VX1\"}, {\"hostname\": \"B\", \"serial\": \"VX2\"}]}");
        assertThat(draft.within()).isEqualTo("/devices");
        assertThat(draft.fields()).extracting(Field::from).containsExactly("hostname", "site", "serial");
        assertThat(draft("c.json", "[{\"hostname\": \"A\", \"serial\": \"VX1\", \"tags\": [{\"a\": 1}]}]").within()).isNull();
    }

    @Test
    void anotherEncodingIsTold() throws IOException {
        Files.write(folder.resolve("d.csv"), "Rechnername;Standort\nPC-1;S\u00fcd\nPC-2;M\u00fchle\n".getBytes("windows-1252"));
        MappingDraft draft = MappingDrafter.of(folder.resolve("d.csv"));
        assertThat(draft.encoding()).isEqualTo("windows-1252");
        assertThat(draft.fields().get(1).sample()).isEqualTo("S\u00fcd");
    }

    @Test
    void withoutARecordThereIsNothingToDraft() {
        assertThatThrownBy(() -> draft("a.csv", "Computer,Disk\n")).isInstanceOf(InputMissingException.class)
            .hasMessage(folder + "/a.csv holds no record that can be read; wearledger check says why");
    }
}
