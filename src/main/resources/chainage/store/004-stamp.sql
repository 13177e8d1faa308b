-- Version 4. Which state of the ledger this is, and which one it came from, so that a write-ahead log can be told from
-- that of another file or of another time (see LeftLog). Renewed by every transaction that writes.
create table stamp (
    one    integer primary key check (one = 1),
    -- Finds the row in a page of the log without SQLite's help. No text: neither a JSON value nor a path can hold it.
    mark   blob not null check (mark = x'f5c1a6f0e9d8ff93b8fec3d2a1ffc0ee'),
    before blob not null check (length(before) = 16),  -- zeros: no state before had a stamp
    now    blob not null check (length(now) = 16)
) strict;

insert into stamp values (1, x'f5c1a6f0e9d8ff93b8fec3d2a1ffc0ee', zeroblob(16), zeroblob(16));

pragma user_version = 4;
