<#-- All libraries that are shipped, as CycloneDX 1.6 (ECMA-424). No moment and no serial number: the same sources give the same bytes. -->
<#function purl library>
  <#return "pkg:maven/" + library.groupId + "/" + library.artifactId + "@" + library.version>
</#function>
{
  "bomFormat": "CycloneDX",
  "specVersion": "1.6",
  "version": 1,
  <#-- The assembly fills these names in. -->
  "metadata": {
    "component": {
      "type": "application", "group": "${r"${project.groupId}"}", "name": "${r"${project.artifactId}"}", "version": "${r"${project.version}"}",
      "purl": "${r"pkg:maven/${project.groupId}/${project.artifactId}@${project.version}"}"
    }
  },
  "components": [
  <#list dependencyMap as entry>
    <#assign library = entry.getKey()>
    {
      "type": "library", "group": "${library.groupId}", "name": "${library.artifactId}", "version": "${library.version}",
      "purl": "${purl(library)}",
      "bom-ref": "${purl(library)}",
      <#-- A name of SPDX has no blanks. -->
      "licenses": [<#list entry.getValue() as licence>{"license": {"${licence?contains(" ")?then("name", "id")}": "${licence?json_string}"}}<#sep>, </#sep></#list>]
    }<#sep>,</#sep>
  </#list>
  ]
}
