package org.wearledger.model;

import java.io.Serializable;

/**
 * The sums that must hold: files found = read + refused; records found = readings + refused; readings = kept + set
 * aside. Side tables and files that are no reports are counted apart.
 */
public record Accounting(long filesFound, long filesRead, long filesRefused, long recordsFound, long recordsRefused,
                         long readingsIn, long readingsKept, long readingsSetAside, long filesPassedOver,
                         long sideTables) implements Serializable {
    public Accounting {
        if (filesFound != filesRead + filesRefused || recordsFound != readingsIn + recordsRefused
            || readingsIn != readingsKept + readingsSetAside) {
            throw new IllegalArgumentException("sums do not hold: files " + filesFound + " = " + filesRead + " + "
                + filesRefused + ", records " + recordsFound + " = " + readingsIn + " + " + recordsRefused
                + ", readings " + readingsIn + " = " + readingsKept + " + " + readingsSetAside);
        }
    }
}
