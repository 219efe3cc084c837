mod entries;
mod hello;
mod jobs;
mod live;
mod pair;
mod photos;
