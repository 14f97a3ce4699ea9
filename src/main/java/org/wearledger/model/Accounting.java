package org.wearledger.model;

import java.io.Serializable;

/**
 * The sums that must hold: files found = read + read in part + refused; records found = readings + refused; readings = kept + set
 * aside; rows of side tables found = read + refused. Side tables and files that are no reports are counted apart.
 *
 * @param filesReadInPart files that gave readings and of which some records were not reached
 * @param readingsIn readings that the files gave, before any rule of the histories
 * @param filesPassedOver files in the given folders that are no reports
 */
public record Accounting(long filesFound, long filesRead, long filesReadInPart, long filesRefused, long recordsFound, long recordsRefused,
                         long readingsIn, long readingsKept, long readingsSetAside, long filesPassedOver,
                         long sideTables, long rowsFound, long rowsRead, long rowsRefused) implements Serializable {
    /** @throws IllegalArgumentException when a sum does not hold; the message prints all four */
    public Accounting {
        if (filesFound != filesRead + filesReadInPart + filesRefused || recordsFound != readingsIn + recordsRefused
            || readingsIn != readingsKept + readingsSetAside || rowsFound != rowsRead + rowsRefused) {
            throw new IllegalArgumentException("sums do not hold: files " + filesFound + " = " + filesRead + " + " + filesReadInPart + " + "
                + filesRefused + ", records " + recordsFound + " = " + readingsIn + " + " + recordsRefused
                + ", readings " + readingsIn + " = " + readingsKept + " + " + readingsSetAside
                + ", side table rows " + rowsFound + " = " + rowsRead + " + " + rowsRefused);
        }
    }
}
