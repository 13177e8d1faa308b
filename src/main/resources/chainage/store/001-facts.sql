-- Version 1. Facts are append-only by trigger; what each path on the disk held is a memo and may be renewed.
pragma application_id = 1667788391; -- the letters "chng"

create table entry (
    number   integer primary key,
    command  integer not null check (command <= number),  -- number of the first entry of the same command
    recorded integer not null,  -- milliseconds since 1970 UTC
    kind     text    not null check (kind in (
        'bike-described', 'chain-described', 'product-described', 'installed', 'removed', 'treated', 'measured',
        'remarked', 'tagged', 'untagged', 'rides-assigned', 'rides-counted', 'twin-stated', 'rule-set',
        'rule-dropped', 'speed-band-set', 'undone')),
    payload  text    not null check (json_valid(payload))
) strict;

create trigger entry_numbers_run_on before insert on entry
when new.number is not (select coalesce(max(number), 0) + 1 from entry)
begin
    select raise(abort, 'entry numbers must run on without a gap');
end;

create trigger entry_is_not_changed before update on entry
begin
    select raise(abort, 'entries are append-only');
end;

create trigger entry_is_not_deleted before delete on entry
begin
    select raise(abort, 'entries are append-only');
end;

-- What was made of each file content, whatever paths it was found under.
create table content (
    id      integer primary key,
    digest  blob not null unique check (length(digest) = 32),  -- SHA-256
    outcome text not null check (outcome in ('imported', 'salvaged', 'not-ride', 'refused')),
    reason  text not null,
    mend    text not null
) strict;

create table ride (
    number       integer primary key,
    content      integer not null references content (id),
    session      integer not null check (session >= 0),
    id           text    not null check (length(id) = 10),
    format       text    not null check (format in ('fit', 'tcx', 'gpx')),
    start        integer not null,  -- milliseconds since 1970 UTC
    elapsed      real    not null check (elapsed >= 0),  -- seconds
    moving       real    not null check (moving >= 0),   -- seconds
    metres       real    not null check (metres >= 0),
    metres_from  text    not null check (metres_from in (
        'device_total', 'device_odometer', 'positions', 'speed', 'none')),
    sport        text    not null,
    sub_sport    text    not null,
    kind         text    not null check (kind in ('cycling', 'other', 'unstated')),
    indoor       integer not null check (indoor in (0, 1)),
    ascent       real,  -- metres; null here and below: unknown
    celsius      real,
    watts        real,
    median_speed real,  -- metres per second
    samples      integer not null,
    evidence     text not null check (json_valid(evidence)),
    pedalling    text check (pedalling is null or json_valid(pedalling)),  -- null: no cadence in the file
    unique (content, session)
) strict;

create trigger ride_is_not_changed before update on ride
begin
    select raise(abort, 'rides are append-only');
end;

create trigger ride_is_not_deleted before delete on ride
begin
    select raise(abort, 'rides are append-only');
end;

-- Every path that a content with rides was ever seen under: evidence for the bike, so kept when the file moves on.
create table place (
    content integer not null references content (id),
    path    text    not null,
    primary key (content, path)
) strict, without rowid;

create trigger place_is_not_changed before update on place
begin
    select raise(abort, 'places are append-only');
end;

create trigger place_is_not_deleted before delete on place
begin
    select raise(abort, 'places are append-only');
end;

-- What each path held when it was last read, so that an unchanged file is not read again.
create table source (
    path          text primary key,
    size          integer not null,
    modified      integer not null,  -- milliseconds since 1970 UTC
    content       integer references content (id),  -- null: an archive, or not read to its end
    outcome       text not null check (outcome in (
        'imported', 'salvaged', 'known', 'not-ride', 'refused', 'archive')),
    reason        text not null,
    mend          text not null,
    refused_parts integer not null check (refused_parts >= 0)
) strict, without rowid;

pragma user_version = 1;
