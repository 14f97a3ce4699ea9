# Never run on Windows so far. Read it, and try it first on a machine that may be lost, with its backup checked.
<#
.SYNOPSIS
Saves the raw health page of each NVMe drive of this machine, and an index that says whose it is, for "wearledger check" and "sweep".
.DESCRIPTION
Reads only, by the storage query of the system (IOCTL_STORAGE_QUERY_PROPERTY): no command bytes are sent. Windows 10, Server 2016 or newer.
Run it in a PowerShell that was opened as administrator:
    powershell -ExecutionPolicy Bypass -File collect-windows.ps1 -Out reports\2025-q1
.PARAMETER Out
Where page and index are written; made if it is not there.
.PARAMETER Machine
A name that stays the same each quarter.
.PARAMETER Yes
Do not ask before reading.
#>
param([Parameter(Mandatory = $true)][string]$Out, [string]$Machine = $env:COMPUTERNAME, [switch]$Yes)
$ErrorActionPreference = 'Stop'

# Values of winioctl.h. The query is 8 bytes, then STORAGE_PROTOCOL_SPECIFIC_DATA of ten 32-bit numbers, then room for the answer, which comes back
# in the same places: STORAGE_PROTOCOL_DATA_DESCRIPTOR begins with 8 bytes too.
Add-Type -TypeDefinition @'
using System;
using System.ComponentModel;
using System.IO;
using System.Runtime.InteropServices;
using Microsoft.Win32.SafeHandles;

public static class DriveQuery
{
    const uint GenericRead = 0x80000000, ShareReadWrite = 3, OpenExisting = 3, QueryProperty = 0x002D1400;
    const int Head = 8, Specific = 40, ProtocolNvme = 3;

    [DllImport("kernel32.dll", SetLastError = true, CharSet = CharSet.Unicode)]
    static extern SafeFileHandle CreateFile(string name, uint access, uint share, IntPtr security, uint creation, uint flags, IntPtr template);

    [DllImport("kernel32.dll", SetLastError = true)]
    static extern bool DeviceIoControl(SafeFileHandle device, uint code, byte[] input, int inputLength, byte[] output, int outputLength, out int returned, IntPtr overlapped);

    // Property 49 asks the controller, 50 the drive; dataType 1 identifies, 2 reads a log page.
    public static byte[] Ask(uint drive, int property, int dataType, int value, int length)
    {
        byte[] buffer = new byte[Head + Specific + length];
        int[] query = { property, 0, ProtocolNvme, dataType, value, 0, Specific, length };
        Buffer.BlockCopy(query, 0, buffer, 0, query.Length * 4);
        using (SafeFileHandle device = CreateFile(@"\\.\PhysicalDrive" + drive, GenericRead, ShareReadWrite, IntPtr.Zero, OpenExisting, 0, IntPtr.Zero))
        {
            int returned;
            if (device.IsInvalid || !DeviceIoControl(device, QueryProperty, buffer, buffer.Length, buffer, buffer.Length, out returned, IntPtr.Zero))
                throw new Win32Exception(Marshal.GetLastWin32Error());
        }
        int offset = BitConverter.ToInt32(buffer, Head + 16), answered = BitConverter.ToInt32(buffer, Head + 20);
        if (offset < Specific || answered < length || offset > buffer.Length - Head - length)
            throw new IOException("the system answered in a form that is not known here");
        byte[] answer = new byte[length];
        Buffer.BlockCopy(buffer, Head + offset, answer, 0, length);
        return answer;
    }
}
'@

function Get-Text([byte[]]$Bytes, [int]$Start, [int]$Length) {
    [Text.Encoding]::ASCII.GetString($Bytes, $Start, $Length).Trim([char[]](0, 32))
}

$rights = [Security.Principal.WindowsPrincipal][Security.Principal.WindowsIdentity]::GetCurrent()
if (-not $rights.IsInRole([Security.Principal.WindowsBuiltInRole]::Administrator)) {
    Write-Host "This needs administrator's rights: open PowerShell by 'Run as administrator'. Nothing was read."
    exit 1
}
$drives = @(Get-PhysicalDisk | Where-Object BusType -eq 'NVMe' | Sort-Object { [uint32]$_.DeviceId })
if ($drives.Count -eq 0) {
    Write-Host 'No NVMe drive found. Nothing was read.'
    exit 1
}
Write-Host "Reads, and changes nothing on, $(($drives | ForEach-Object { 'PhysicalDrive' + $_.DeviceId }) -join ', '); writes their pages and an index of $Machine into $Out."
if (-not $Yes -and (Read-Host 'Go on? [y/N]') -ne 'y') {
    Write-Host 'Nothing was read.'
    exit 1
}

$now = [DateTime]::UtcNow
$stem = ($Machine -replace '[^A-Za-z0-9._-]', '_') + $now.ToString("-yyyyMMdd'T'HHmmss'Z'", [Globalization.CultureInfo]::InvariantCulture)
$folder = (New-Item -ItemType Directory -Force -Path $Out).FullName
$memory = (Get-CimInstance Win32_PhysicalMemory | Measure-Object Capacity -Sum).Sum
$swap = (Get-CimInstance Win32_PageFileUsage | Measure-Object CurrentUsage -Sum).Sum    # in MiB
$rows = @()
foreach ($drive in $drives) {
    try {
        $page = [DriveQuery]::Ask($drive.DeviceId, 50, 2, 2, 512)
        if (-not ($page -ne 0)) { throw 'nothing but zeros: something stands between the drive and the system' }
        # Bytes of Identify Controller: serial 4 to 23, model 24 to 63, firmware 64 to 71.
        $identified = [DriveQuery]::Ask($drive.DeviceId, 49, 1, 1, 4096)
        $name = "$stem-$($drive.DeviceId).bin"
        $file = [IO.File]::Open((Join-Path $folder $name), [IO.FileMode]::CreateNew)
        try { $file.Write($page, 0, $page.Length) } finally { $file.Dispose() }
        $rows += [PSCustomObject][ordered]@{
            schemaVersion = '1.0'; file = $name; collectedAt = $now.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", [Globalization.CultureInfo]::InvariantCulture)
            'machine.id' = $Machine; 'machine.memoryBytes' = $memory; 'machine.swapUsedBytes' = if ($null -ne $swap) { [long]$swap * 1MB }
            'drive.serial' = Get-Text $identified 4 20; 'drive.model' = Get-Text $identified 24 40; 'drive.firmware' = Get-Text $identified 64 8
            'drive.capacityBytes' = $drive.Size
        }
    } catch {
        Write-Warning "PhysicalDrive$($drive.DeviceId): no page: $($_.Exception.Message)"
    }
}
if ($rows.Count -gt 0) {
    $index = Join-Path $folder "$stem.csv"
    $rows | Export-Csv -Path "$index.part" -NoTypeInformation -Encoding UTF8
    Rename-Item -Path "$index.part" -NewName "$stem.csv"
    Write-Host "$($rows.Count) of $($drives.Count) drives read: $stem.csv"
}
if ($rows.Count -lt $drives.Count) { exit 1 }
