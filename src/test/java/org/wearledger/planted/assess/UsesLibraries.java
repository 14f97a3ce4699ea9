package org.wearledger.planted.assess;

import com.fasterxml.jackson.databind.JsonNode;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.math3.special.Erf;
import org.apache.commons.statistics.descriptive.Median;
import org.apache.poi.ss.usermodel.Workbook;
import org.apache.spark.sql.SparkSession;
import picocli.CommandLine;

/** Every library in the wrong place. */
final class UsesLibraries {
    SparkSession spark;
    JsonNode jackson;
    CSVRecord csv;
    Workbook poi;
    CommandLine picocli;
    Erf math;
    Median statistics;
}
