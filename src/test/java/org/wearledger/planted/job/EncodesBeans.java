package org.wearledger.planted.job;

import java.util.List;
import org.apache.spark.sql.Dataset;
import org.apache.spark.sql.Encoder;
import org.apache.spark.sql.Encoders;
import org.apache.spark.sql.Row;
import org.apache.spark.sql.SparkSession;

final class EncodesBeans {
    Encoder<StringBuilder> encoder() {
        return Encoders.bean(StringBuilder.class);
    }

    Dataset<Row> dataFrame(SparkSession spark) {
        return spark.createDataFrame(List.of(), StringBuilder.class);
    }
}
