package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * A mapping as it may be for the exports of a folder.
 *
 * @param folder that the mapping is for
 * @param files that were looked at, some of many
 * @param others looked at there that this mapping does not fit
 */
public record FolderDraft(String folder, List<String> files, List<String> others, MappingDraft draft) implements Serializable {
}
