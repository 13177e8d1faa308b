-- Version 2. Observations of the weather, each kept with the entry that brought it, so that taking the entry back takes
-- them back. Which kinds of entry there are is the reader's business alone, so that a new kind needs no new version.
create table entry_2 (
    number   integer primary key,
    command  integer not null check (command <= number),  -- number of the first entry of the same command
    recorded integer not null,  -- milliseconds since 1970 UTC
    kind     text    not null check (length(kind) > 0),
    payload  text    not null check (json_valid(payload))
) strict;

insert into entry_2 (number, command, recorded, kind, payload)
select number, command, recorded, kind, payload from entry;

drop table entry;
alter table entry_2 rename to entry;

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

create table observation (
    station    text    not null,  -- empty: the rider named none
    at         integer not null,  -- milliseconds since 1970 UTC, end of the time that the amount is for
    place      text    not null,  -- latitude and longitude in degrees, as "48.1,11.5"; empty: not known
    -- Written before its entry, which says how many there were.
    entry      integer not null references entry (number) deferrable initially deferred,
    seconds    integer not null check (seconds >= 0),  -- that the amount is for; 0: only seen at the instant
    mm_an_hour real check (mm_an_hour >= 0),           -- null here and below: not known
    seen       text    not null,  -- what fell, in the program's own words; empty: not reported
    celsius    real,
    humidity   real check (humidity between 0 and 100),  -- per cent
    primary key (station, place, at, entry)
) strict, without rowid;

create index observation_by_time on observation (at);

create trigger observation_is_not_changed before update on observation
begin
    select raise(abort, 'observations are append-only');
end;

create trigger observation_is_not_deleted before delete on observation
begin
    select raise(abort, 'observations are append-only');
end;

pragma user_version = 2;
