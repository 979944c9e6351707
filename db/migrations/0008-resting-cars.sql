-- Derived: delivered cars on which nothing is open. `brief` is RestingCar as JSON, what lists of all cars say of one, so that
-- they need not fold it; `rests_until` the last moment (epoch milliseconds) that hours or a photo of it are of, so that views
-- of today find the others by the index. Both NULL for every other car.
ALTER TABLE car ADD COLUMN rests_until INTEGER;
ALTER TABLE car ADD COLUMN brief TEXT;
CREATE INDEX car_by_rest ON car (rests_until);
CREATE INDEX car_by_revision ON car (revision);
