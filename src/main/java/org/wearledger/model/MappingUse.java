package org.wearledger.model;

import java.io.Serializable;

/**
 * A mapping and the files that it serves.
 *
 * @param mapping its name; {@code null} for files that none serves
 * @param first file by name, {@code null} for none
 * @param last file by name, {@code null} for none
 */
public record MappingUse(String mapping, long files, String first, String last) implements Serializable {
}
