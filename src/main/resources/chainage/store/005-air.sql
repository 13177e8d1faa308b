-- Version 5. What dries a road: the wind, and the clouds before the sun.
alter table observation add column wind real check (wind >= 0);                -- metres per second; null: not known
alter table observation add column cloud real check (cloud between 0 and 1);   -- share of the sky; null: not known

pragma user_version = 5;
